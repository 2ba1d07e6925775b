// Was gesagt sein muss, bevor jemand etwas tut: am Fuß der Seite, und wo man es tut.

import type { Catalogue } from '../en';

export const cautions: Catalogue['cautions'] = {
  stings: 'Stiche können Menschen mit Allergie töten.',
  heavy: (weight) => `Eine volle Brutraumzarge kann ${weight(40)} wiegen: Heb sie nicht allein.`,
  smoker: 'Ein Smoker kann Feuer legen.',
  acids: 'Säuren und Thymol schädigen Augen und Lunge; bei jeder Behandlung ist das Etikett Gesetz, und jedes Land hat eigene Regeln.',
  inspector: 'Melde jeden Verdacht auf Faulbrut oder eine andere meldepflichtige Seuche der Bieneninspektion oder dem Veterinäramt.',
  aid: 'Eine Lehrhilfe: Sie ersetzt nie den Blick ins Volk.',
};
