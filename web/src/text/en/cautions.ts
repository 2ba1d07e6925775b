// What has to be said before anybody acts: at the foot of the page, and where the action is.

/** A weight in kg, in the units of the page. */
export type Weight = (kilograms: number) => string;

export const cautions = {
  stings: 'Stings can kill someone allergic.',
  heavy: (weight: Weight) => `A full deep box can weigh ${weight(40)}: lift with help.`,
  smoker: 'A smoker starts fires.',
  acids: 'Acids and thymol harm eyes and lungs; with any treatment, the label is the law and national rules differ.',
  inspector: 'Suspected foulbrood, or another disease that must be notified, goes to the bee inspector.',
  aid: 'A teaching aid: it never replaces opening the hive.',
};
