// Plays a take in the audio thread: raw mid and side come as blocks, the matrix is applied here, sample by sample.
import { Gate, Ramp } from './ramp.js';
import { Heard } from './heard.js';
import { Sinc } from './sinc.js';

const rampSeconds = 0.012, gateSeconds = 0.005;

class TakeProcessor extends AudioWorkletProcessor {
    constructor({ processorOptions: o }) {
        super();
        this.rate = o.rate;
        // Eight coefficients: a second pair runs beside the first, frame by frame.
        this.two = o.matrix.length === 8;
        this.frames = o.frames;
        this.blockFrames = o.blockFrames;
        this.ahead = o.ahead ?? 6;
        this.blocks = new Map();
        this.asked = new Set();
        this.matrix = new Ramp(o.matrix, rampSeconds * sampleRate);
        this.gate = new Gate(gateSeconds * sampleRate);
        this.heard = new Heard(sampleRate);
        this.place = o.place ?? 0;
        this.speed = 1;
        this.loop = null;
        this.jump = null;
        this.playing = false;
        this.starved = false;
        this.told = 0;
        this.setSpeed(o.speed ?? 1);
        for (const block of o.blocks ?? [])
            this.blocks.set(block.index, block);
        if (o.playing)
            this.start(true);
        this.port.onmessage = ({ data }) => this.hear(data);
    }

    hear(message) {
        switch (message.type) {
            case 'block':
                this.blocks.set(message.index, message);
                this.asked.delete(message.index);
                break;
            case 'flush':
                this.blocks.clear();
                this.asked.clear();
                this.frames = message.frames;
                break;
            case 'failed':
                this.asked.delete(message.index);
                break;
            case 'matrix':
                this.matrix.to(message.values);
                break;
            case 'play':
                this.start(false);
                break;
            case 'pause':
                this.playing = this.gate.open = false;
                break;
            case 'seek':
                this.jump = message.frame;
                this.keepNear(message.frame);
                break;
            case 'loop':
                this.loop = message.to > message.from ? { from: message.from, to: message.to } : null;
                break;
            case 'speed':
                this.setSpeed(message.speed);
                break;
            case 'end':
                this.ended = true;
                break;
        }
    }

    start(atOnce) {
        this.playing = true;
        this.gate.open = true;
        if (atOnce)
            this.gate.value = 1;
    }

    setSpeed(speed) {
        this.speed = speed;
        this.ratio = this.rate / sampleRate * speed;
        this.sinc = this.ratio === 1 ? null : new Sinc(this.ratio);
        const reach = this.sinc ? this.sinc.reach : 0;
        const size = Math.ceil(128 * this.ratio) + 2 * reach + 4;
        this.mid = new Float32Array(size);
        this.side = new Float32Array(size);
        this.mid2 = this.two ? new Float32Array(size) : null;
        this.side2 = this.two ? new Float32Array(size) : null;
        // At the take's own rate every output frame is a frame of the take.
        if (!this.sinc)
            this.place = Math.round(this.place);
    }

    /** Copies a stretch of the take, as the loop plays it; outside the take is silence. False while a block is missing. */
    gather(from, count) {
        const { loop } = this;
        const loops = loop && this.place < loop.to;
        for (let n = 0; n < count;) {
            let frame = from + n;
            let room = count - n;
            if (loops && frame >= loop.to)
                frame = loop.from + (frame - loop.to) % (loop.to - loop.from);
            if (loops)
                room = Math.min(room, loop.to - frame);
            if (frame < 0 || frame >= this.frames) {
                const silent = frame < 0 ? Math.min(room, -frame) : room;
                this.mid.fill(0, n, n + silent);
                this.side.fill(0, n, n + silent);
                this.mid2?.fill(0, n, n + silent);
                this.side2?.fill(0, n, n + silent);
                n += silent;
                continue;
            }
            const index = Math.floor(frame / this.blockFrames);
            const block = this.blocks.get(index);
            if (!block) {
                this.ask(index);
                return false;
            }
            const at = frame - index * this.blockFrames;
            const length = Math.min(room, block.mid.length - at);
            if (length <= 0)
                return false;
            this.mid.set(block.mid.subarray(at, at + length), n);
            this.side.set(block.side.subarray(at, at + length), n);
            if (this.two && block.mid2) {
                this.mid2.set(block.mid2.subarray(at, at + length), n);
                this.side2.set(block.side2.subarray(at, at + length), n);
            } else {
                this.mid2?.fill(0, n, n + length);
                this.side2?.fill(0, n, n + length);
            }
            n += length;
        }
        return true;
    }

    ask(index) {
        if (index < 0 || index * this.blockFrames >= this.frames || this.blocks.has(index) || this.asked.has(index))
            return;
        this.asked.add(index);
        this.port.postMessage({ type: 'need', index });
    }

    /** Asks for what comes next and forgets what lies far behind. */
    keepNear(frame) {
        const index = Math.floor(frame / this.blockFrames);
        for (let n = 0; n < this.ahead; n++)
            this.ask(index + n);
        const start = this.loop ? Math.floor(this.loop.from / this.blockFrames) : -1;
        if (this.loop)
            this.ask(start), this.ask(start + 1);
        for (const held of this.blocks.keys())
            if ((held < index - 1 || held > index + this.ahead + 2) && held !== start && held !== start + 1)
                this.blocks.delete(held);
        // What was asked for and is far away now must not block asking again.
        for (const asked of this.asked)
            if (asked < index - 1 || asked > index + this.ahead + 2)
                this.asked.delete(asked);
    }

    process(_, [out, pair]) {
        if (this.ended)
            return false;
        const frames = out[0].length;
        if (this.jump !== null && this.gate.isShut || this.jump !== null && !this.playing && this.gate.value === 0) {
            this.place = Math.max(0, Math.min(this.jump, this.frames));
            this.jump = null;
            this.gate.open = this.playing;
        } else if (this.jump !== null) {
            this.gate.open = false;
        }
        if (this.gate.isShut) {
            this.rest(frames, out, pair);
            return true;
        }
        this.render(frames, out, pair);
        return true;
    }

    rest(frames, out, pair) {
        for (let n = 0; n < frames; n++)
            this.matrix.advance();
        for (const channel of [...out, ...(pair ?? [])])
            channel.fill(0);
        this.tell(frames);
    }

    render(frames, out, pair) {
        const reach = this.sinc ? this.sinc.reach : 0;
        const first = Math.floor(this.place) - reach;
        const ready = this.gather(first, this.sinc ? Math.ceil(frames * this.ratio) + 2 * reach + 2 : frames);
        this.keepNear(this.place);
        if (!ready) {
            this.starve(frames, out, pair);
            return;
        }
        this.starved = false;
        const { now } = this.matrix;
        for (let n = 0; n < frames; n++) {
            this.matrix.advance();
            const at = this.sinc ? this.place + n * this.ratio - first : n;
            const mid = this.sinc ? this.sinc.at(this.mid, at) : this.mid[n];
            const side = this.sinc ? this.sinc.at(this.side, at) : this.side[n];
            const gain = this.gate.next();
            let left = now[0] * mid + now[1] * side;
            let right = now[2] * mid + now[3] * side;
            if (this.two) {
                const mid2 = this.sinc ? this.sinc.at(this.mid2, at) : this.mid2[n];
                const side2 = this.sinc ? this.sinc.at(this.side2, at) : this.side2[n];
                left += now[4] * mid2 + now[5] * side2;
                right += now[6] * mid2 + now[7] * side2;
            }
            left *= gain;
            right *= gain;
            out[0][n] = left;
            if (out[1])
                out[1][n] = right;
            if (pair && pair[1]) {
                pair[0][n] = (left + right) / 2;
                pair[1][n] = (left - right) / 2;
            }
            this.heard.add(left, right);
        }
        this.advance(frames * this.ratio);
        this.tell(frames);
    }

    advance(step) {
        const before = this.place;
        this.place += step;
        const { loop } = this;
        if (loop && before < loop.to && this.place >= loop.to) {
            this.place = loop.from + (this.place - loop.to) % (loop.to - loop.from);
        } else if (this.place >= this.frames) {
            this.place = this.frames;
            this.playing = this.gate.open = false;
            this.gate.value = 0;
            this.port.postMessage({ type: 'ended' });
        }
    }

    // Waiting for sound: silence, and it opens softly when it comes.
    starve(frames, out, pair) {
        this.gate.value = 0;
        this.rest(frames, out, pair);
        if (!this.starved)
            this.port.postMessage({ type: 'waiting' });
        this.starved = true;
    }

    tell(frames) {
        this.told += frames;
        if (this.heard.isFull) {
            const report = this.heard.take();
            this.port.postMessage(report);
        }
        if (this.told >= sampleRate / 40) {
            this.told = 0;
            this.port.postMessage({ type: 'at', frame: this.place, time: currentTime, playing: this.playing });
        }
    }
}

registerProcessor('athwart-take', TakeProcessor);
