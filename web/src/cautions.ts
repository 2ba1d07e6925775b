/**
 * What has to be said before anybody acts: at the foot of the page, and where the action is.
 */
export const STINGS = 'Stings can kill someone allergic.';
export const HEAVY = 'A full deep box can weigh 40 kg: lift with help.';
export const SMOKER = 'A smoker starts fires.';
export const ACIDS = 'Acids and thymol harm eyes and lungs; with any treatment, the label is the law and national rules differ.';
export const INSPECTOR = 'Suspected foulbrood, or another disease that must be notified, goes to the bee inspector.';
