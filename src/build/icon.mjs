// node src/build/icon.mjs: draws src/vscode/icon.png, a sheet of records with a drop on it.
import { writeFileSync } from 'node:fs';
import { crc32, deflateSync } from 'node:zlib';
import { inRoot } from './paths.mjs';

const size = 256;
/** Samples per pixel along each side, against jagged edges. */
const fine = 4;

const ground = [18, 84, 96];
const paper = [244, 248, 246];
const lines = [156, 190, 188];
const drop = [22, 122, 138];
const shine = [196, 230, 232];

/** @typedef {readonly number[]} Colour */

/** Whether a place lies in a rectangle with round corners. @param {number} x @param {number} y @param {{ left: number, top: number, right: number, bottom: number, radius: number }} box */
function inBox(x, y, { left, top, right, bottom, radius }) {
  const dx = Math.max(left + radius - x, x - (right - radius), 0);
  const dy = Math.max(top + radius - y, y - (bottom - radius), 0);
  return Math.hypot(dx, dy) <= radius;
}

/** Whether a place lies in a drop: a disc, and above it a tip that its tangents make. @param {number} x @param {number} y */
function inDrop(x, y) {
  const [middle, centre, radius, tip] = [160, 166, 46, 70];
  if (Math.hypot(x - middle, y - centre) <= radius) return true;
  const reach = centre - tip;
  const touch = centre - (radius * radius) / reach;
  const width = (radius * Math.sqrt(reach * reach - radius * radius)) / reach;
  return y >= tip && y <= touch && Math.abs(x - middle) <= (width * (y - tip)) / (touch - tip);
}

/** What lies at a place; undefined: nothing. @param {number} x @param {number} y @returns {Colour | undefined} */
function colourAt(x, y) {
  if (!inBox(x, y, { left: 8, top: 8, right: 248, bottom: 248, radius: 44 })) return undefined;
  if (inDrop(x, y)) {
    const isShine = Math.hypot(x - 160, y - 166) <= 32 && Math.hypot(x - 160, y - 166) >= 24 && x < 150 && y > 168;
    return isShine ? shine : drop;
  }
  if (!inBox(x, y, { left: 44, top: 48, right: 212, bottom: 208, radius: 10 })) return ground;
  if (y < 80) return lines;
  const onRow = [112, 144, 176].some((row) => Math.abs(y - row) < 3);
  const onColumn = [100, 156].some((column) => Math.abs(x - column) < 3);
  return onRow || onColumn ? lines : paper;
}

/** Red, green, blue and opacity of a pixel, each from 0 to 255. @param {number} column @param {number} row */
function pixel(column, row) {
  const sum = [0, 0, 0];
  let seen = 0;
  for (let i = 0; i < fine * fine; i++) {
    const colour = colourAt(column + ((i % fine) + 0.5) / fine, row + (Math.floor(i / fine) + 0.5) / fine);
    if (!colour) continue;
    seen += 1;
    colour.forEach((part, at) => (sum[at] = (sum[at] ?? 0) + part));
  }
  return seen === 0 ? [0, 0, 0, 0] : [...sum.map((part) => Math.round(part / seen)), Math.round((255 * seen) / (fine * fine))];
}

/** A part of a PNG file (W3C Portable Network Graphics, section 5.3). @param {string} type @param {Buffer} data */
function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

const header = Buffer.alloc(13);
header.writeUInt32BE(size, 0);
header.writeUInt32BE(size, 4);
header.set([8, 6, 0, 0, 0], 8);
const rows = Array.from({ length: size }, (_, row) => [0, ...Array.from({ length: size }, (_, column) => pixel(column, row)).flat()]);
const image = deflateSync(Buffer.from(rows.flat()), { level: 9 });
const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
writeFileSync(inRoot('src/vscode/icon.png'), Buffer.concat([signature, chunk('IHDR', header), chunk('IDAT', image), chunk('IEND', Buffer.alloc(0))]));
