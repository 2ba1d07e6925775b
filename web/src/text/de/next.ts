// Was als Nächstes zu tun ist.

import type { BelowTexts } from '../below';

export const next: BelowTexts['next'] = {
  title: 'Was jetzt',
  invitation: 'Eine Liste mit Tagen für die nächsten Wochen: was zu tun ist, worauf zu schauen ist, warum, und in wie vielen Völkern wie diesem es so ist.',
  ask: (date) => `Liste ab ${date} machen`,
  askAfter: (visits) => `Liste nach ${visits === 1 ? 'dieser Durchsicht' : `diesen ${visits} Durchsichten`} machen`,
  noneUsed: 'Nach Durchsichten, von denen keine zu brauchen war, gibt es keine Liste: Leg sie weg, oder ändere den Plan.',
  again: 'Die Liste neu machen',
  old: 'Plan oder Durchsichten haben sich geändert, seit diese Liste gemacht wurde.',
  working: (lived) => `Die nächsten Wochen werden durchgerechnet: bis jetzt ${lived} Völker …`,
  stop: 'Anhalten',
  from: (hive, date) => (hive ? `${hive}, ab ${date}` : `Ab ${date}`),
  footing: (members, visits) =>
    visits === 0
      ? `Abgelesen an ${members} Völkern mit gleichem Beginn und gleichem Wetter; Futter und Handgriffe des Plans gehen weiter, wie sie sind.`
      : `Abgelesen an ${members} Völkern, die zu ${visits === 1 ? 'der Durchsicht' : `den ${visits} Durchsichten`} passen; Futter und Handgriffe des Plans gehen weiter, wie sie sind.`,
  between: (first, last) => `${first} bis ${last}`,
  later: (date) => `Später, bis ${date}`,
  planned: 'wie geplant',
  asFound: 'wie gefunden',
  why: 'Warum:',
  caution: 'Vorsicht:',
  empty: 'In diesen Wochen ist nichts zu tun.',
  save: 'Als Kalenderdatei speichern',
  print: 'Die Liste drucken',
  printWeek: 'Nur die nächste Woche drucken',
  upTo: (date) => `bis ${date}`,
  emptyUpTo: (date, first) => (first ? `Bis ${date} ist nichts zu tun; die erste Arbeit: ${first}.` : `Bis ${date} ist nichts zu tun.`),
  printed: (date) => `gedruckt am ${date}`,
  found: ['Bienen', 'Brut', 'ausgebaut', 'Vorrat', 'Stifte', 'Königin', 'Weiselzellen'],
  beware: 'Gib acht',
};
