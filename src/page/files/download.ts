/** Hands a file to the browser's downloads. Nothing leaves the machine: the address is one inside the page. */
export function download(name: string, bytes: Uint8Array, type: string): void {
  const address = URL.createObjectURL(new Blob([bytes.slice()], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.hidden = true;
  document.body.append(link);
  link.click();
  link.remove();
  // Later: a browser may not have begun to read it yet.
  setTimeout(() => URL.revokeObjectURL(address), LIFETIME_MILLISECONDS);
}

const LIFETIME_MILLISECONDS = 60_000;
