/** Keeping a place in the file, as a named case: through the server that gave the page, or as a changed copy. */

/** What became of it. */
export type Saved = { readonly text: string } | { readonly message: string };

/** Asks the server to write it into the file. */
export async function saveThere(name: string, wants: string): Promise<Saved> {
  try {
    const answer = await fetch('save', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name, wants }),
    });
    const said = (await answer.json()) as Partial<Record<'text' | 'message', unknown>>;
    if (answer.ok && typeof said.text === 'string') return { text: said.text };
    return {
      message: typeof said.message === 'string' ? said.message : 'the file was not written',
    };
  } catch {
    return { message: 'berth explore is no longer running: the file was not written' };
  }
}

/** Offers a text as a file. */
export function download(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'text/yaml' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  window.setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
