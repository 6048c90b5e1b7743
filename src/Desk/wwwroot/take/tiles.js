// Tiles of peaks and spectrograms: fetched when they are first wanted, kept while there is room, never waited for.

export const binsPerTile = 1024, numbersPerBin = 11, binBytes = 22;
export const columns = 256, rows = 160, finestSpectrum = 3;

// All 65536 half-precision numbers, written out once.
const halves = new Float32Array(65536);
for (let h = 0; h < 65536; h++) {
    const sign = h & 0x8000 ? -1 : 1, exponent = (h >> 10) & 31, fraction = h & 1023;
    halves[h] = exponent === 0 ? sign * fraction * 2 ** -24
        : exponent === 31 ? (fraction ? 0 : sign * 65504)
            : sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}

function numbers(bytes) {
    const packed = new Uint16Array(bytes);
    const values = new Float32Array(packed.length);
    for (let n = 0; n < packed.length; n++)
        values[n] = halves[packed[n]];
    return values;
}

/** Holds what was fetched under one address each; the least used goes first. */
class Store {
    constructor(limit, changed) {
        this.limit = limit;
        this.changed = changed;
        this.held = new Map();
        this.coming = new Map();
        this.queue = [];
        this.busy = 0;
    }

    /** What is there now, or undefined; begins to fetch it when asked to. */
    get(key, load) {
        const value = this.held.get(key);
        if (value !== undefined) {
            this.held.delete(key);
            this.held.set(key, value);
            return value;
        }
        if (load && !this.coming.has(key)) {
            this.coming.set(key, load);
            this.queue.push(key);
            this.next();
        }
        return undefined;
    }

    // The latest wish first: it is what one is looking at. What has scrolled away long ago is dropped.
    async next() {
        while (this.queue.length > 64)
            this.coming.delete(this.queue.shift());
        if (this.busy >= 4 || this.queue.length === 0)
            return;
        const key = this.queue.pop(), load = this.coming.get(key);
        this.busy++;
        try {
            this.held.set(key, await load());
            while (this.held.size > this.limit)
                this.held.delete(this.held.keys().next().value);
        } catch (error) {
            // Asked again by the next picture; a moment later, so that a desk that is away is not hammered.
            await new Promise(done => setTimeout(done, error.wait ?? 500));
        } finally {
            this.coming.delete(key);
            this.busy--;
            this.changed();
            this.next();
        }
    }
}

export class Tiles {
    /** take: { id, key, frames, topLevel }; changed: called when something new is there; progress: called with 0…1 while peaks are made. */
    constructor(take, changed, progress) {
        this.take = take;
        this.progress = progress;
        this.peakStore = new Store(500, changed);
        this.spectrumStore = new Store(200, changed);
        this.version = 0;
    }

    async fetch(address) {
        const answer = await fetch(address);
        if (answer.status === 202) {
            this.progress(Number((await answer.json()).fraction));
            throw Object.assign(new Error('being made'), { wait: 250 });
        }
        if (!answer.ok)
            throw new Error(`the desk answered ${answer.status}`);
        this.progress(1);
        return answer.arrayBuffer();
    }

    /** The numbers of a tile of peaks, or undefined while it is on its way. */
    peaks(level, tile, wanted = true) {
        return this.peakStore.get(`${level}/${tile}`, wanted ? async () =>
            numbers(await this.fetch(`/sound/${this.take.id}/peaks/${level}/${tile}?v=${this.take.key}`)) : null);
    }

    /** The two pictures of a tile of a spectrogram, as bytes. */
    spectrum(pair, level, tile, wanted = true) {
        return this.spectrumStore.get(`${pair}/${level}/${tile}`, wanted ? async () =>
            new Uint8Array(await this.fetch(`/sound/${this.take.id}/spectrum/${pair}/${level}/${tile}?v=${this.take.key}`)) : null);
    }
}
