// What has to be said before anybody acts: at the foot of the page, and where the action is.

export const cautions = {
  stings: 'Stings can kill someone allergic.',
  heavy: 'A full deep box can weigh 40 kg: lift with help.',
  smoker: 'A smoker starts fires.',
  acids: 'Acids and thymol harm eyes and lungs; with any treatment, the label is the law and national rules differ.',
  inspector: 'Suspected foulbrood, or another disease that must be notified, goes to the bee inspector.',
};
