/**
 * Raw pictures with exact times, as a Matroska stream (RFC 9559): the plainest way to hand an encoder
 * frames whose times are not evenly spaced.
 */

function size(n: number): Buffer {
  // Eight bytes: marker 0x01, then 56 bits.
  const out = Buffer.alloc(8);
  out.writeUInt32BE(0x01000000 + Math.floor(n / 2 ** 32), 0);
  out.writeUInt32BE(n >>> 0, 4);
  return out;
}

function element(id: number, body: Buffer): Buffer {
  const head = Buffer.from(
    id.toString(16).padStart(id > 0xffffff ? 8 : id > 0xffff ? 6 : id > 0xff ? 4 : 2, '0'),
    'hex',
  );
  return Buffer.concat([head, size(body.length), body]);
}

function whole(id: number, value: number): Buffer {
  const body = Buffer.alloc(8);
  body.writeUInt32BE(Math.floor(value / 2 ** 32), 0);
  body.writeUInt32BE(value >>> 0, 4);
  return element(id, body);
}

function text(id: number, value: string): Buffer {
  return element(id, Buffer.from(value, 'latin1'));
}

const UNKNOWN = Buffer.from('01ffffffffffffff', 'hex');

/** Header of a stream of RGBA pictures whose times are whole microseconds. */
export function matroskaHeader(width: number, height: number): Buffer {
  const ebml = element(
    0x1a45dfa3,
    Buffer.concat([
      whole(0x4286, 1),
      whole(0x42f7, 1),
      whole(0x42f2, 4),
      whole(0x42f3, 8),
      text(0x4282, 'matroska'),
      whole(0x4287, 4),
      whole(0x4285, 2),
    ]),
  );
  const info = element(
    0x1549a966,
    Buffer.concat([whole(0x2ad7b1, 1000), text(0x4d80, 'film'), text(0x5741, 'film')]),
  );
  const video = element(
    0xe0,
    Buffer.concat([whole(0xb0, width), whole(0xba, height), text(0x2eb524, 'RGBA')]),
  );
  const track = element(
    0xae,
    Buffer.concat([
      whole(0xd7, 1),
      whole(0x73c5, 1),
      whole(0x83, 1),
      whole(0x9c, 0),
      text(0x86, 'V_UNCOMPRESSED'),
      video,
    ]),
  );
  const tracks = element(0x1654ae6b, track);
  return Buffer.concat([ebml, Buffer.from('18538067', 'hex'), UNKNOWN, info, tracks]);
}

/** What stands before the bytes of one picture shown at `microseconds`. */
export function matroskaFrameHead(microseconds: number, bytes: number): Buffer {
  const stamp = whole(0xe7, microseconds);
  const block = Buffer.concat([Buffer.from('a3', 'hex'), size(bytes + 4), Buffer.from([0x81, 0, 0, 0x80])]);
  const cluster = Buffer.concat([Buffer.from('1f43b675', 'hex'), size(stamp.length + block.length + bytes)]);
  return Buffer.concat([cluster, stamp, block]);
}
