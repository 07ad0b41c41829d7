/** The headers of the page with the open-source grid: on a developer's computer, and on a club's web space. */

const POLICY: readonly string[] = [
  "default-src 'none'",
  "script-src 'self'",
  "connect-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  // The grid makes two <style> elements: an empty one, to which it adds rules by script, and the style of its short
  // notices. The hashes are those of the two texts; no other inline style passes.
  "style-src 'self' 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=' 'sha256-StEaX+se6YS7pqjzrzMIA0KaX9zF/8zAhvQXZAe5epY='",
  "base-uri 'none'",
  "form-action 'none'",
];

/** The page that is kept on a device has a manifest and a worker of its own. */
const KEPT: readonly string[] = ["manifest-src 'self'", "worker-src 'self'"];

interface PolicyOptions {
  /** With what it takes to keep the page on a device. */
  readonly isKept: boolean;
}

/** As it may stand in the page itself: whether a frame may show the page is told by a header alone. */
export function pagePolicy({ isKept }: PolicyOptions): string {
  return [...POLICY, ...(isKept ? KEPT : [])].join("; ");
}

export function pagePolicyHeader(options: PolicyOptions): string {
  return `${pagePolicy(options)}; frame-ancestors 'none'`;
}
