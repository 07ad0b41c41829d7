/** The address under which a club hosts the add-in: what it must be like, and why another is refused. */

interface AddressOptions {
  /** A developer's own computer is allowed, and nothing else. */
  readonly forDevelopment: boolean;
}

/**
 * @param text such as `https://tools.example.org/twirl/`
 * @throws Error with the one reason why the address cannot be used and what is accepted
 */
export function checkAddress(text: string, { forDevelopment }: AddressOptions): string {
  const refuse = (reason: string): never => {
    throw new Error(`The address ${text === "" ? "given" : text} cannot be used: ${reason}`);
  };
  let address: URL;
  try {
    address = new URL(text);
  } catch {
    return refuse("it is no web address. One such as https://tools.example.org/twirl/ is accepted.");
  }
  if (address.protocol !== "https:") {
    return refuse("it must start with https://, because the spreadsheet program loads add-ins over https only.");
  }
  if (address.username !== "" || address.password !== "") {
    return refuse("it holds a user name or a password, which everybody could read in the manifest.");
  }
  if (text.includes("?")) return refuse("it holds a query (from the ? on), and names of files are to follow it.");
  if (text.includes("#")) return refuse("it holds a fragment (from the # on), and names of files are to follow it.");
  if (!text.endsWith("/")) return refuse("it must end with a slash, because names of files are to follow it.");
  if (isThisComputer(address.hostname) && !forDevelopment) {
    return refuse("it leads to the reader's own computer. For a developer's own use, add --dev.");
  }
  if (!isThisComputer(address.hostname) && forDevelopment) {
    return refuse("--dev is for https://localhost:3000/ and the like. Leave --dev out for a club's web space.");
  }
  if (address.href !== text) return refuse(`browsers read it as ${address.href}. Write it like that.`);
  return text;
}

function isThisComputer(host: string): boolean {
  return /(^|\.)localhost$/.test(host) || /^127\./.test(host) || host === "[::1]" || host === "0.0.0.0";
}
