// Measures what is heard, sample by sample, inside the audio thread.

// The interpolator of ITU-R BS.1770-5 Annex 2, phases 0 and 1; phases 3 and 2 are the same backwards.
const outer = [0.0017089843750, 0.0109863281250, -0.0196533203125, 0.0332031250000, -0.0594482421875, 0.1373291015625,
    0.9721679687500, -0.1022949218750, 0.0476074218750, -0.0266113281250, 0.0148925781250, -0.0083007812500];
const inner = [-0.0291748046875, 0.0292968750000, -0.0517578125000, 0.0891113281250, -0.1665039062500, 0.4650878906250,
    0.7797851562500, -0.2003173828125, 0.1015625000000, -0.0582275390625, 0.0330810546875, -0.0189208984375];
const taps = 12;

class TruePeak {
    constructor(rate) {
        // Four times the rate below 80 kHz, twice below 160 kHz, none above: as Annex 2 asks.
        this.kernels = rate < 80000 ? [outer, inner] : rate < 160000 ? [inner] : [];
        this.ring = new Float32Array(2 * taps);
        this.at = 0;
        this.peak = 0;
    }

    add(sample) {
        const size = Math.abs(sample);
        if (size > this.peak)
            this.peak = size;
        // Written twice, so that the last twelve always lie in one piece.
        this.at = this.at === 0 ? taps - 1 : this.at - 1;
        this.ring[this.at] = this.ring[this.at + taps] = sample;
        for (const kernel of this.kernels) {
            let forward = 0, backward = 0;
            for (let k = 0; k < taps; k++) {
                const x = this.ring[this.at + k];
                forward += kernel[k] * x;
                backward += kernel[taps - 1 - k] * x;
            }
            const larger = Math.max(Math.abs(forward), Math.abs(backward));
            if (larger > this.peak)
                this.peak = larger;
        }
    }
}

/** Peaks, powers and a picture of left against right, gathered until they are taken. */
export class Heard {
    constructor(rate) {
        this.truePeaks = [new TruePeak(rate), new TruePeak(rate)];
        // About 30 reports a second, each with up to 512 points.
        this.every = Math.max(128, Math.round(rate / 30));
        this.stride = Math.max(1, Math.ceil(this.every / 512));
        this.clear();
    }

    clear() {
        this.frames = 0;
        this.leftPeak = this.rightPeak = 0;
        this.ll = this.rr = this.lr = 0;
        this.points = new Float32Array(2 * Math.ceil(this.every / this.stride));
        this.count = 0;
        for (const t of this.truePeaks)
            t.peak = 0;
    }

    add(left, right) {
        const l = Math.abs(left), r = Math.abs(right);
        if (l > this.leftPeak)
            this.leftPeak = l;
        if (r > this.rightPeak)
            this.rightPeak = r;
        this.ll += left * left;
        this.rr += right * right;
        this.lr += left * right;
        this.truePeaks[0].add(left);
        this.truePeaks[1].add(right);
        if (this.frames % this.stride === 0 && this.count < this.points.length) {
            this.points[this.count++] = left;
            this.points[this.count++] = right;
        }
        this.frames++;
    }

    get isFull() {
        return this.frames >= this.every;
    }

    /** The report, and a fresh start. */
    take() {
        const report = {
            type: 'heard',
            frames: this.frames,
            leftPeak: this.leftPeak,
            rightPeak: this.rightPeak,
            leftTruePeak: this.truePeaks[0].peak,
            rightTruePeak: this.truePeaks[1].peak,
            ll: this.ll / this.frames,
            rr: this.rr / this.frames,
            lr: this.lr / this.frames,
            points: this.points.subarray(0, this.count),
        };
        this.clear();
        return report;
    }
}
