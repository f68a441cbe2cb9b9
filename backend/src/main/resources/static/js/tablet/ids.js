// @ts-check

/** A UUID of version 7 (RFC 9562, section 5.7): milliseconds first, then chance. */
export function uuid7() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let millis = Date.now();
  for (let i = 5; i >= 0; i--) {
    bytes[i] = millis % 256;
    millis = Math.floor(millis / 256);
  }
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** When a UUID of version 7 was made, by the clock of the device that made it, in milliseconds. @param {string} id */
export function madeAt(id) {
  return parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}

/** The time of this device with its offset from UTC. */
export function deviceTime() {
  const now = new Date();
  const offset = -now.getTimezoneOffset();
  const local = new Date(now.getTime() + offset * 60000).toISOString().slice(0, 23);
  const size = Math.abs(offset);
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  return `${local}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
