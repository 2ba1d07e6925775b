/** Printing one part of the page alone: what neither holds it nor is in it stays off the paper (style.css). */

/** Prints a part; resolves once the paper is out of the way again. The rest of the page is for the browser's own command. */
export async function printAlone(part: HTMLElement): Promise<void> {
  const page = document.documentElement;
  const printed = new Promise((resolve) => addEventListener('afterprint', resolve, { once: true }));
  page.classList.add('alone');
  part.classList.add('on-paper');
  window.print();
  await printed;
  page.classList.remove('alone');
  part.classList.remove('on-paper');
}
