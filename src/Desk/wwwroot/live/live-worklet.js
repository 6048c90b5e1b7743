// Decodes a live mid and side in the audio thread, watches the raw channels, and keeps them when asked to.
import { Ramp } from '../sound/ramp.js';
import { Heard } from '../sound/heard.js';
import { Watch } from '../sound/watch.js';

class LiveProcessor extends AudioWorkletProcessor {
    constructor({ processorOptions: o }) {
        super();
        this.matrix = new Ramp(o.matrix, 0.012 * sampleRate);
        this.heard = new Heard(sampleRate);
        this.watch = new Watch(sampleRate);
        this.exchanged = false;
        this.sign = 1;
        this.keeping = false;
        this.kept = [new Float32Array(8192), new Float32Array(8192)];
        this.keptFrames = 0;
        this.port.onmessage = ({ data }) => this.hear(data);
    }

    hear(message) {
        switch (message.type) {
            case 'matrix':
                this.matrix.to(message.values);
                break;
            case 'roles':
                this.exchanged = message.exchanged;
                this.sign = message.turned ? -1 : 1;
                this.watch.clear();
                break;
            case 'keep':
                this.keeping = true;
                break;
            case 'keep-no-more':
                this.keeping = false;
                this.give();
                this.port.postMessage({ type: 'kept-all' });
                break;
            case 'end':
                this.ended = true;
                break;
        }
    }

    process([input], [out, pair]) {
        if (this.ended)
            return false;
        const silent = input.length === 0;
        const frames = out[0].length, { now } = this.matrix;
        const one = input[0], two = input[1] ?? input[0];
        for (let n = 0; n < frames; n++) {
            this.matrix.advance();
            const first = silent ? 0 : one[n], second = silent ? 0 : two[n];
            const mid = this.exchanged ? second : first, side = this.sign * (this.exchanged ? first : second);
            const left = now[0] * mid + now[1] * side, right = now[2] * mid + now[3] * side;
            out[0][n] = left;
            if (out[1])
                out[1][n] = right;
            if (pair?.[1]) {
                pair[0][n] = mid;
                pair[1][n] = side;
            }
            this.heard.add(left, right);
            this.watch.add(mid, side);
            if (this.keeping)
                this.keep(first, second);
        }
        if (this.heard.isFull)
            this.port.postMessage(this.heard.take());
        if (this.watch.isFull)
            this.port.postMessage({ ...this.watch.take(), channels: input.length });
        return true;
    }

    // The channels as they came: roles and levels are decided later.
    keep(first, second) {
        this.kept[0][this.keptFrames] = first;
        this.kept[1][this.keptFrames] = second;
        if (++this.keptFrames === this.kept[0].length)
            this.give();
    }

    give() {
        if (this.keptFrames > 0)
            this.port.postMessage({ type: 'kept', channels: this.kept.map(c => c.slice(0, this.keptFrames)) });
        this.keptFrames = 0;
    }
}

registerProcessor('athwart-live', LiveProcessor);
