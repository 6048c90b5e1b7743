/** A two-channel 32-bit float WAVE file of what was kept: the raw channels, exactly as they came. */
export function waveOf(blocks, rate) {
    const frames = blocks.reduce((n, b) => n + b[0].length, 0), data = frames * 8;
    const head = new DataView(new ArrayBuffer(58));
    const put = (at, text) => [...text].forEach((c, n) => head.setUint8(at + n, c.charCodeAt(0)));
    put(0, 'RIFF'), head.setUint32(4, 50 + data, true), put(8, 'WAVEfmt ');
    head.setUint32(16, 18, true), head.setUint16(20, 3, true), head.setUint16(22, 2, true);
    head.setUint32(24, rate, true), head.setUint32(28, rate * 8, true), head.setUint16(32, 8, true), head.setUint16(34, 32, true), head.setUint16(36, 0, true);
    put(38, 'fact'), head.setUint32(42, 4, true), head.setUint32(46, frames, true);
    put(50, 'data'), head.setUint32(54, data, true);
    const parts = blocks.map(([first, second]) => {
        const both = new DataView(new ArrayBuffer(first.length * 8));
        for (let n = 0; n < first.length; n++) {
            both.setFloat32(n * 8, first[n], true);
            both.setFloat32(n * 8 + 4, second[n], true);
        }
        return both;
    });
    return new Blob([head, ...parts], { type: 'audio/wav' });
}
