// A QR symbol of a text: ISO/IEC 18004, byte mode, level L, versions 1 to 25. Rows of 0 and 1, or nothing if it is too long.
const CHECK_BYTES = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30, 26];
const BLOCKS = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10, 12];
const qrTimes = (a, b) => {
  let product = 0;
  for (let bit = 7; bit >= 0; bit--) {
    product = (product << 1) ^ ((product >> 7) * 0x11d);
    product ^= ((b >> bit) & 1) * a;
  }
  return product;
};
// Reed–Solomon: the generator's coefficients, and the remainder.
const qrDivisor = (degree) => {
  const divisor = [...Array(degree - 1).fill(0), 1];
  for (let root = 1, turn = 0; turn < degree; turn++, root = qrTimes(root, 2)) {
    for (let i = 0; i < degree; i++) divisor[i] = qrTimes(divisor[i], root) ^ (divisor[i + 1] || 0);
  }
  return divisor;
};
const qrCheck = (data, divisor) => {
  const rest = divisor.map(() => 0);
  for (const byte of data) {
    const factor = byte ^ rest.shift();
    rest.push(0);
    divisor.forEach((each, i) => { rest[i] ^= qrTimes(each, factor); });
  }
  return rest;
};
const qrAlignments = (version) => {
  if (version === 1) return [];
  const count = Math.floor(version / 7) + 2, last = version * 4 + 10;
  const step = Math.ceil((version * 4 + 4) / (count * 2 - 2)) * 2;
  return [6, ...Array.from({ length: count - 1 }, (_, i) => last - i * step).reverse()];
};
const qrBytes = (version) => {
  const count = version > 1 ? Math.floor(version / 7) + 2 : 0;
  const patterns = version > 1 ? (25 * count - 10) * count - 55 : 0;
  return ((16 * version + 128) * version + 64 - patterns - (version > 6 ? 36 : 0)) >> 3;
};
const qrData = (version) => qrBytes(version) - CHECK_BYTES[version - 1] * BLOCKS[version - 1];
const qrCodewords = (bytes, version) => {
  const room = qrData(version), bits = [];
  const put = (value, length) => { for (let i = length - 1; i >= 0; i--) bits.push((value >> i) & 1); };
  put(4, 4);
  put(bytes.length, version < 10 ? 8 : 16);
  for (const byte of bytes) put(byte, 8);
  put(0, Math.min(4, room * 8 - bits.length));
  while (bits.length % 8) bits.push(0);
  const data = Array.from({ length: bits.length / 8 }, (_, i) => parseInt(bits.slice(i * 8, i * 8 + 8).join(""), 2));
  for (let pad = 0xec; data.length < room; pad ^= 0xec ^ 0x11) data.push(pad);
  const blocks = BLOCKS[version - 1], total = qrBytes(version), short = blocks - (total % blocks);
  const divisor = qrDivisor(CHECK_BYTES[version - 1]), length = Math.floor(total / blocks) - divisor.length;
  const parts = [], checks = [];
  for (let i = 0, at = 0; i < blocks; i++) {
    const part = data.slice(at, at += length + (i < short ? 0 : 1));
    parts.push(part);
    checks.push(qrCheck(part, divisor));
  }
  const woven = (of) => Array.from({ length: Math.max(...of.map((one) => one.length)) }, (_, i) => of.map((one) => one[i])).flat();
  return [...woven(parts).filter((byte) => byte !== undefined), ...woven(checks)];
};
const QR_MASKS = [
  (x, y) => (x + y) % 2, (x, y) => y % 2, (x) => x % 3, (x, y) => (x + y) % 3,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2, (x, y) => (x * y) % 2 + (x * y) % 3,
  (x, y) => ((x * y) % 2 + (x * y) % 3) % 2, (x, y) => ((x + y) % 2 + (x * y) % 3) % 2,
];
const qrFrame = (version) => {
  const size = version * 4 + 17, rows = Array.from({ length: size }, () => Array(size).fill(-1));
  const put = (x, y, dark) => { if (rows[y] && x >= 0 && x < size) rows[y][x] = Number(dark); };
  for (let i = 0; i < size; i++) { put(6, i, i % 2 === 0); put(i, 6, i % 2 === 0); }
  for (const [cx, cy] of [[3, 3], [size - 4, 3], [3, size - 4]]) {
    for (let dy = -4; dy <= 4; dy++) for (let dx = -4; dx <= 4; dx++) {
      const ring = Math.max(Math.abs(dx), Math.abs(dy));
      put(cx + dx, cy + dy, ring !== 2 && ring !== 4);
    }
  }
  const at = qrAlignments(version);
  for (const cx of at) for (const cy of at) {
    if ((cx === 6 && (cy === 6 || cy === size - 7)) || (cx === size - 7 && cy === 6)) continue;
    for (let dy = -2; dy <= 2; dy++) for (let dx = -2; dx <= 2; dx++) put(cx + dx, cy + dy, Math.max(Math.abs(dx), Math.abs(dy)) !== 1);
  }
  if (version > 6) {
    let rest = version;
    for (let i = 0; i < 12; i++) rest = (rest << 1) ^ ((rest >> 11) * 0x1f25);
    const bits = (version << 12) | rest;
    for (let i = 0; i < 18; i++) {
      put(size - 11 + (i % 3), Math.floor(i / 3), (bits >> i) & 1);
      put(Math.floor(i / 3), size - 11 + (i % 3), (bits >> i) & 1);
    }
  }
  return { size, rows, put };
};
const qrFormat = ({ size, put }, mask) => {
  let rest = 8 | mask;
  for (let i = 0; i < 10; i++) rest = (rest << 1) ^ ((rest >> 9) * 0x537);
  const bits = (((8 | mask) << 10) | rest) ^ 0x5412, bit = (i) => (bits >> i) & 1;
  for (let i = 0; i <= 5; i++) put(8, i, bit(i));
  put(8, 7, bit(6)); put(8, 8, bit(7)); put(7, 8, bit(8));
  for (let i = 9; i < 15; i++) put(14 - i, 8, bit(i));
  for (let i = 0; i < 8; i++) put(size - 1 - i, 8, bit(i));
  for (let i = 8; i < 15; i++) put(8, size - 15 + i, bit(i));
  put(8, size - 8, 1);
};
// How hard a symbol is to read: runs, blocks, what looks like a finder, too much of one shade (7.8.3).
const qrPenalty = (rows) => {
  let penalty = 0, dark = 0;
  const lines = [...rows, ...rows.map((_, x) => rows.map((row) => row[x]))].map((line) => line.join(""));
  for (const line of lines) {
    for (const run of line.match(/0{5,}|1{5,}/g) || []) penalty += run.length - 2;
    penalty += 40 * ((line.match(/(?=10111010000)/g) || []).length + (line.match(/(?=00001011101)/g) || []).length);
  }
  rows.forEach((row, y) => row.forEach((one, x) => {
    dark += one;
    if (x && y && one === row[x - 1] && one === rows[y - 1][x] && one === rows[y - 1][x - 1]) penalty += 3;
  }));
  return penalty + 10 * Math.floor(Math.abs(dark / rows.length ** 2 - 0.5) * 20);
};
const qrRows = (text) => {
  const bytes = [...new TextEncoder().encode(text)];
  const version = BLOCKS.findIndex((_, i) => bytes.length + (i < 9 ? 2 : 3) <= qrData(i + 1)) + 1;
  if (!version) return null;
  const bits = qrCodewords(bytes, version).flatMap((byte) => [7, 6, 5, 4, 3, 2, 1, 0].map((i) => (byte >> i) & 1));
  const symbols = QR_MASKS.map((flips, mask) => {
    const frame = qrFrame(version), { size, rows } = frame;
    qrFormat(frame, mask);
    let next = 0;
    for (let right = size - 1; right > 0; right -= right === 8 ? 3 : 2) {
      for (let step = 0; step < size; step++) {
        const up = ((right + 1) & 2) === 0, y = up ? size - 1 - step : step;
        for (const x of [right, right - 1]) {
          if (rows[y][x] < 0) rows[y][x] = (bits[next++] || 0) ^ (flips(x, y) === 0 ? 1 : 0);
        }
      }
    }
    return rows;
  });
  return symbols.reduce((best, rows) => (qrPenalty(rows) < qrPenalty(best) ? rows : best));
};
const qrPicture = (rows) => {
  const path = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x + 4} ${y + 4}h1v1h-1z` : ""))).join("");
  const draw = (tag, settings) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
    for (const [name, value] of Object.entries(settings)) made.setAttribute(name, value);
    return made;
  };
  const size = rows.length + 8;
  const picture = draw("svg", { viewBox: `0 0 ${size} ${size}`, class: "qr", role: "img", "aria-label": "QR of the ticks", "shape-rendering": "crispEdges" });
  picture.append(draw("rect", { width: size, height: size, fill: "#fff" }), draw("path", { d: path, fill: "#000" }));
  return picture;
};
