/** The check sum of a packed part (CRC-32 as in APPNOTE.TXT 4.4.7). */
const table = new Uint32Array(256);
for (let byte = 0; byte < 256; byte += 1) {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  table[byte] = value;
}

export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (let index = 0; index < bytes.length; index += 1) {
    value = ((table[(value ^ (bytes[index] ?? 0)) & 0xff] ?? 0) ^ (value >>> 8)) >>> 0;
  }
  return (value ^ 0xffffffff) >>> 0;
}
