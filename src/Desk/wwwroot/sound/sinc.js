// Interpolation between samples by a windowed sinc: for slower playback, and where the browser cannot run at the take's rate.

const zeroCrossings = 16, phases = 256, beta = 9;

function bessel(x) {
    let sum = 1, term = 1;
    for (let k = 1; term > 1e-12 * sum; k++) {
        term *= (x / (2 * k)) ** 2;
        sum += term;
    }
    return sum;
}

/** A kernel for reading at a ratio of source frames per output frame; above 1 it also keeps out what would fold back. */
export class Sinc {
    constructor(ratio) {
        const cutoff = Math.min(1, 0.97 / ratio);
        this.ratio = ratio;
        this.reach = Math.ceil(zeroCrossings / cutoff);
        this.table = new Float32Array((this.reach * phases) + 2);
        for (let i = 0; i < this.table.length; i++) {
            const x = i / phases;
            const w = x >= this.reach ? 0 : bessel(beta * Math.sqrt(1 - (x / this.reach) ** 2)) / bessel(beta);
            this.table[i] = w * (x === 0 ? cutoff : Math.sin(Math.PI * cutoff * x) / (Math.PI * x));
        }
    }

    /** The value at a place between samples; the array must reach this.reach samples to both sides. */
    at(samples, place) {
        const { reach, table } = this;
        const first = Math.floor(place) - reach + 1;
        let sum = 0;
        for (let i = 0, n = first; i < 2 * reach; i++, n++) {
            const distance = Math.abs(place - n) * phases;
            const k = distance | 0;
            if (k < reach * phases)
                sum += samples[n] * (table[k] + (distance - k) * (table[k + 1] - table[k]));
        }
        return sum;
    }
}
