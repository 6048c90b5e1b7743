// The pictures of a take: each lane draws a stretch of time into a rectangle.
import { binsPerTile, columns, finestSpectrum, numbersPerBin, rows } from './tiles.js';

/** Where the numbers of a role stand in a bin. */
export const roles = {
    mid: { low: 0, high: 1, name: 'Mid' },
    side: { low: 2, high: 3, name: 'Side' },
    left: { low: 4, high: 5, name: 'Left' },
    right: { low: 6, high: 7, name: 'Right' },
};

function rootMeanSquare(bin, at, role) {
    const mid = bin[at + 8], side = bin[at + 9];
    if (role === 'mid')
        return mid;
    if (role === 'side')
        return side;
    const cross = 2 * bin[at + 10] * mid * side;
    return Math.sqrt(Math.max(0, mid * mid + side * side + (role === 'left' ? cross : -cross)));
}

/** The level of detail that has one to four bins a pixel. */
export function levelFor(framesPerPixel, topLevel) {
    return Math.max(0, Math.min(topLevel, Math.floor(Math.log2(Math.max(1, framesPerPixel)) / 2)));
}

/**
 * Gathers lowest, highest and mean level for each pixel column. What is not there yet comes from a coarser level that is,
 * so a picture is never empty for long.
 */
export function gather(tiles, view, width, role, out) {
    const { topLevel, frames } = tiles.take;
    const { low, high } = roles[role];
    const level = levelFor(view.framesPerPixel, topLevel);
    const first = Math.floor(Math.max(0, view.start) / 4 ** level / binsPerTile);
    const last = Math.floor(Math.min(frames - 1, view.start + width * view.framesPerPixel) / 4 ** level / binsPerTile);
    // The neighbours are fetched too, so that dragging finds them there. Middle last: the last wish is served first.
    for (let tile = Math.max(0, first - 1); tile <= last + 1; tile++)
        if (tile * binsPerTile * 4 ** level < frames)
            tiles.peaks(level, tile);
    // The tile each level was read from last: neighbours mostly share it.
    const memo = { tile: new Float64Array(topLevel + 1).fill(-1), values: [] };
    for (let x = 0; x < width; x++) {
        const from = view.start + x * view.framesPerPixel, to = from + view.framesPerPixel;
        if (to <= 0 || from >= frames) {
            out.low[x] = NaN;
            continue;
        }
        column(tiles, level, Math.max(0, from), Math.min(frames, to), low, high, role, out, x, memo);
    }
    return level;
}

function column(tiles, level, from, to, low, high, role, out, x, memo) {
    for (let k = level; k <= tiles.take.topLevel; k++) {
        const size = 4 ** k;
        const first = Math.floor(from / size), last = Math.max(first, Math.ceil(to / size) - 1);
        let lowest = Infinity, highest = -Infinity, loudest = 0;
        let bin = first;
        for (; bin <= last; bin++) {
            const tile = Math.floor(bin / binsPerTile);
            if (memo.tile[k] !== tile) {
                memo.tile[k] = tile;
                memo.values[k] = tiles.peaks(k, tile, k === tiles.take.topLevel);
            }
            const values = memo.values[k];
            const at = (bin - tile * binsPerTile) * numbersPerBin;
            if (!values)
                break;
            if (at >= values.length)
                continue;
            if (values[at + low] < lowest)
                lowest = values[at + low];
            if (values[at + high] > highest)
                highest = values[at + high];
            const rms = rootMeanSquare(values, at, role);
            if (rms > loudest)
                loudest = rms;
        }
        if (bin > last && highest >= lowest) {
            out.low[x] = lowest;
            out.high[x] = highest;
            out.rms[x] = loudest;
            return;
        }
    }
    out.low[x] = NaN;
}

export function columnsFor(width) {
    return { low: new Float32Array(width), high: new Float32Array(width), rms: new Float32Array(width) };
}

/** A waveform: the extremes as a body, the mean level as its heart, beyond full scale in the colour of a fault. */
export function drawWave(g, box, data, width, height, gain, colours) {
    const middle = box.y + height / 2, scale = gain * (height / 2 - 1);
    const at = v => middle - Math.max(-1, Math.min(1, v * gain)) * (height / 2 - 1);
    g.fillStyle = colours.body;
    for (let x = 0; x < width; x++) {
        if (Number.isNaN(data.low[x]))
            continue;
        const top = at(data.high[x]), bottom = at(data.low[x]);
        g.fillRect(box.x + x, top, 1, Math.max(1, bottom - top));
    }
    g.fillStyle = colours.heart;
    for (let x = 0; x < width; x++) {
        if (Number.isNaN(data.low[x]))
            continue;
        const r = Math.min(data.rms[x] * scale, height / 2 - 1);
        const top = Math.max(middle - r, at(data.high[x])), bottom = Math.min(middle + r, at(data.low[x]));
        if (bottom - top > 0.5)
            g.fillRect(box.x + x, top, 1, bottom - top);
    }
    g.fillStyle = colours.fault;
    for (let x = 0; x < width; x++) {
        if (data.high[x] >= 0.9999)
            g.fillRect(box.x + x, box.y, 1, 4);
        if (data.low[x] <= -0.9999)
            g.fillRect(box.x + x, box.y + height - 4, 1, 4);
    }
}

/** Single samples: a line through them, and dots once they stand apart. */
export function drawSamples(g, box, tiles, view, width, height, gain, role, colours) {
    const first = Math.max(0, Math.floor(view.start)), last = Math.min(tiles.take.frames - 1, Math.ceil(view.start + width * view.framesPerPixel));
    const at = v => box.y + height / 2 - Math.max(-1, Math.min(1, v * gain)) * (height / 2 - 1);
    const apart = 1 / view.framesPerPixel;
    const points = [];
    for (let frame = first; frame <= last; frame++) {
        const tile = Math.floor(frame / binsPerTile), values = tiles.peaks(0, tile);
        if (values)
            points.push([box.x + (frame - view.start) * apart, at(values[(frame - tile * binsPerTile) * numbersPerBin + roles[role].high])]);
    }
    g.strokeStyle = colours.heart;
    g.lineWidth = Math.max(1, box.scale * 1.5);
    g.beginPath();
    for (const [x, y] of points)
        g.lineTo(x, y);
    g.stroke();
    if (apart < 5 * box.scale)
        return;
    g.fillStyle = colours.heart;
    g.beginPath();
    for (const [x, y] of points) {
        g.moveTo(x, y);
        g.arc(x, y, Math.min(apart / 4, 3 * box.scale), 0, 7);
    }
    g.fill();
}

/** Pictures of spectrogram tiles in the colours of now, kept as long as the colours stay. */
export class SpectrumLane {
    constructor(tiles) {
        this.tiles = tiles;
        this.pictures = new WeakMap();
    }

    draw(g, box, view, width, height, pair, plane, ramp) {
        const { frames } = this.tiles.take;
        const want = Math.max(finestSpectrum, Math.ceil(Math.log2(Math.max(1, view.framesPerPixel)) / 2));
        const top = this.tiles.take.topSpectrum;
        // Coarse first, fine over it: what is missing in the fine shows the coarse.
        g.imageSmoothingEnabled = true;
        for (let level = top; level >= Math.min(want, top); level--) {
            const size = columns * 4 ** level;
            const first = Math.floor(Math.max(0, view.start) / size);
            const last = Math.floor(Math.min(frames - 1, view.start + width * view.framesPerPixel) / size);
            if (last - first > 12)
                continue;
            for (let tile = first; tile <= last; tile++) {
                const bytes = this.tiles.spectrum(pair, level, tile, level === Math.min(want, top) || level === top);
                if (!bytes?.length)
                    continue;
                const used = Math.min(columns, Math.ceil((frames - tile * size) / 4 ** level));
                const x = (tile * size - view.start) / view.framesPerPixel;
                const w = used * 4 ** level / view.framesPerPixel;
                g.drawImage(this.picture(bytes, plane, ramp), 0, 0, used, rows, box.x + x, box.y, w, height);
            }
        }
    }

    picture(bytes, plane, ramp) {
        let kept = this.pictures.get(bytes);
        if (!kept || kept.ramp !== ramp)
            this.pictures.set(bytes, kept = { ramp, planes: [] });
        return kept.planes[plane] ??= paint(bytes.subarray(plane * rows * columns, (plane + 1) * rows * columns), ramp);
    }
}

function paint(bytes, ramp) {
    const picture = new OffscreenCanvas(columns, rows);
    const g = picture.getContext('2d');
    const image = g.createImageData(columns, rows);
    const pixels = new Uint32Array(image.data.buffer);
    for (let r = 0; r < rows; r++)
        for (let c = 0; c < columns; c++)
            pixels[(rows - 1 - r) * columns + c] = ramp[bytes[r * columns + c]];
    g.putImageData(image, 0, 0);
    return picture;
}

/** 256 colours from silent to loud, through the given stops [[0…1, [r, g, b]], …]; a byte is half a decibel. */
export function rampOf(stops, floor = 40, ceiling = 245) {
    const ramp = new Uint32Array(256);
    for (let n = 0; n < 256; n++) {
        const t = Math.max(0, Math.min(1, (n - floor) / (ceiling - floor)));
        const i = Math.max(1, stops.findIndex(s => s[0] >= t));
        const [a, b] = [stops[i - 1], stops[i]];
        const part = (t - a[0]) / (b[0] - a[0]);
        const [red, green, blue] = [0, 1, 2].map(c => Math.round(a[1][c] + part * (b[1][c] - a[1][c])));
        ramp[n] = (255 << 24 | blue << 16 | green << 8 | red) >>> 0;
    }
    return ramp;
}

/**
 * The direction trail: where each moment sits between left and right at a side level, from the same bins. The share of the
 * sound that mid and side agree on gives its place, and how much they agree on gives how strongly it is drawn.
 */
export function drawTrail(g, box, tiles, view, width, height, sideGain, colours) {
    const { topLevel, frames } = tiles.take;
    const step = Math.max(1, Math.round(3 * box.scale)), half = height / 2 - 3 * box.scale;
    // A moment of some milliseconds at least: shorter ones have no place yet.
    const level = Math.min(topLevel, Math.max(4, levelFor(view.framesPerPixel * step, topLevel) + 1));
    const moments = [];
    for (let x = 0; x < width; x += step) {
        const frame = view.start + (x + step / 2) * view.framesPerPixel;
        const found = frame >= 0 && frame < frames ? binAt(tiles, level, frame) : null;
        if (found) {
            const [values, at] = found;
            moments.push({ x, mid: values[at + 8], side: values[at + 9] * sideGain, agree: values[at + 10] });
        }
    }
    const loudest = moments.reduce((most, m) => Math.max(most, m.mid), 1e-6);
    g.fillStyle = colours.trail;
    for (const { x, mid, side, agree } of moments) {
        if (mid < 1e-6)
            continue;
        // Left minus right over left plus right of the part they share; beyond 1 the sound lies outside the loudspeakers.
        const place = Math.max(-1.15, Math.min(1.15, agree * side / mid));
        const loud = Math.max(0, 1 + 20 * Math.log10(mid / loudest) / 45);
        // With hardly any side there is nothing to agree on: the sound is in the middle.
        const sure = Math.max(agree * agree, 1 - Math.abs(side) / mid * 10);
        const strength = sure * loud;
        if (strength < 0.03)
            continue;
        const thick = (1.2 + 2.4 * strength) * box.scale;
        g.globalAlpha = Math.min(1, 0.15 + strength);
        g.fillRect(box.x + x, box.y + height / 2 - place / 1.15 * half - thick / 2, step, thick);
    }
    g.globalAlpha = 1;
}

function binAt(tiles, level, frame) {
    for (let k = level; k <= tiles.take.topLevel; k++) {
        const bin = Math.floor(frame / 4 ** k), tile = Math.floor(bin / binsPerTile);
        const values = tiles.peaks(k, tile, k === level);
        const at = (bin - tile * binsPerTile) * numbersPerBin;
        if (values && at < values.length)
            return [values, at];
    }
    return null;
}
