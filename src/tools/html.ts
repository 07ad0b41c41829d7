/** Text into HTML: whatever it holds, it stays text. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
