/** Texts that the page carries packed: gzip in base64, in data blocks that no browser runs. */

/** The text of a block. */
export async function unpacked(id: string): Promise<string> {
  const block = document.getElementById(id);
  if (block === null) throw new Error(`the page has no block ${id}`);
  const bytes = Uint8Array.from(atob(block.textContent.trim()), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Response(stream).text();
}
