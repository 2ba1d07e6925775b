// Prints the story of one day as WebAssembly tells it, as plain text. Arguments: scenario, date, language.
import { load, tried } from './door.mjs';

const [file, date, language] = process.argv.slice(2);
const { explorer, scenario } = load(file);
explorer.speak(language);
tried(() => explorer.run('plan', JSON.stringify(scenario)));
const { sentences } = explorer.story('plan', date, 'metric');
console.log(sentences.map((spans) => spans.map(({ text }) => text).join('')).join(' '));
