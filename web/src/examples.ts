/** The plans that come with the page. */
const files = import.meta.glob<string>('../../scenarios/*.toml', { query: '?raw', import: 'default', eager: true });

export interface Example {
  /** Its file's name in words, which no other has. */
  name: string;
  /** What it calls itself. */
  title: string;
  text: string;
}

export const EXAMPLES: readonly Example[] = Object.entries(files).map(([path, text]) => {
  const name = (path.split('/').pop() ?? path).replace('.toml', '').replaceAll('-', ' ');
  return { name, title: /^name = "(.+)"$/m.exec(text)?.[1] ?? name, text };
});
