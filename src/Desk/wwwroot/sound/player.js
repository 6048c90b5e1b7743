// The player of one take: fetches raw mid and side from the desk and hands them to the audio thread.
import { coefficients, equalLoudness, ofTwo, ratio } from './matrix.js';

/** Frames fetched at once: a third of a second at 96 kHz. */
export const blockFrames = 32768;

async function fetchPair(path, signal) {
    const answer = await fetch(path, { signal });
    if (!answer.ok)
        throw new Error(`the desk answered ${answer.status}`);
    const samples = new Float32Array(await answer.arrayBuffer());
    return [samples.slice(0, samples.length / 2), samples.slice(samples.length / 2)];
}

// A treatment may make the take longer or shorter: the shorter pair is silent beyond its end.
function atLeast(samples, length) {
    if (samples.length >= length)
        return samples;
    const longer = new Float32Array(length);
    longer.set(samples);
    return longer;
}

/** One stretch of a take: { index, mid, side }; with a treatment { mid2, side2 } beside it, as long. */
export async function fetchBlock(take, index, signal, treated) {
    const range = `from=${index * blockFrames}&frames=${blockFrames}`;
    const [[mid, side], second] = await Promise.all([
        fetchPair(`/sound/${take}/pair?${range}`, signal),
        treated?.version ? fetchPair(`/sound/${take}/treated/pair?${range}&v=${treated.version}${treated.query}`, signal) : null,
    ]);
    if (!second)
        return { index, mid, side };
    const length = Math.max(mid.length, second[0].length);
    return { index, mid: atLeast(mid, length), side: atLeast(side, length), mid2: atLeast(second[0], length), side2: atLeast(second[1], length) };
}

// One context for each rate, with its decoder fetched once, for as long as the page lives; takes come and go.
const rooms = new Map();

/** The audio context for a take, at its own rate where the browser can, and its decoder: { context, ready }. */
export function roomFor(rate) {
    if (!rooms.has(rate)) {
        const context = contextFor(rate);
        rooms.set(rate, { context, players: new Set(), ready: context.audioWorklet.addModule('/sound/take-worklet.js') });
        // What did not come is asked for again by the next play.
        rooms.get(rate).ready.catch(() => rooms.delete(rate));
    }
    return rooms.get(rate);
}

function contextFor(rate) {
    try {
        return new AudioContext({ sampleRate: rate, latencyHint: 'interactive' });
    } catch {
        return new AudioContext({ latencyHint: 'interactive' });
    }
}

/** The graph behind the decoder: monitor level to the ears, mid and side of what is heard to two analysers. */
export function outlet(context, node) {
    const monitor = new GainNode(context, { gain: 1 });
    node.connect(monitor, 0).connect(context.destination);
    const split = new ChannelSplitterNode(context, { numberOfOutputs: 2 });
    node.connect(split, 1);
    const analysers = [0, 1].map(channel => {
        const analyser = new AnalyserNode(context, { fftSize: 4096, smoothingTimeConstant: 0.75, minDecibels: -130, maxDecibels: 0 });
        split.connect(analyser, channel);
        return analyser;
    });
    return { monitor, mid: analysers[0], side: analysers[1] };
}

export class Player extends EventTarget {
    /** take: id; rate in hertz; frames; treated: { version, frames, query } of a treatment to compare with. Nothing is opened before the first play. */
    constructor({ take, rate, frames, treated = null }) {
        super();
        this.rawFrames = frames;
        this.treated = treated;
        this.take = take;
        this.rate = rate;
        this.frames = Math.max(frames, treated?.frames ?? 0);
        this.settings = { A: { side: 0, view: 'stereo', swap: false }, B: { side: -6, view: 'stereo', swap: false } };
        this.using = 'A';
        this.equal = false;
        this.powers = null;
        this.loop = null;
        this.speed = 1;
        this.monitorLevel = 0;
        this.place = 0;
        this.placeTime = 0;
        this.playing = false;
        this.context = null;
    }

    /** The coefficients heard now, with the trim that makes A and B equally loud. */
    get matrix() {
        const { A, B } = this.settings;
        const [a, b] = [A, B].map(s => this.treated ? ofTwo(coefficients(s), s.treated) : coefficients(s));
        const trims = this.equal && this.powers ? equalLoudness(a, b, this.powers) : [1, 1];
        return this.using === 'A' ? a.map(x => x * trims[0]) : b.map(x => x * trims[1]);
    }

    /** Opens the audio once; must follow a click or a key. */
    open() {
        return this.opening ??= this.openOnce().catch(error => { this.opening = null; throw error; });
    }

    async openOnce() {
        const room = this.room = roomFor(this.rate);
        room.players.add(this);
        this.context = room.context;
        await room.ready;
        if (this.closed)
            throw new Error('the page of the take was left');
        this.node = new AudioWorkletNode(this.context, 'athwart-take', {
            numberOfInputs: 0,
            numberOfOutputs: 2,
            outputChannelCount: [2, 2],
            processorOptions: { rate: this.rate, frames: this.frames, blockFrames, matrix: this.matrix, place: this.place, speed: this.speed },
        });
        this.node.port.onmessage = ({ data }) => this.hear(data);
        Object.assign(this, outlet(this.context, this.node));
        this.monitor.gain.value = ratio(this.monitorLevel);
        if (this.loop)
            this.node.port.postMessage({ type: 'loop', ...this.loop });
        this.say('opened');
    }

    /** Whether the browser plays at the take's rate, and in words. */
    get rateNote() {
        const kHz = hertz => `${(hertz / 1000).toLocaleString('en', { maximumFractionDigits: 2 })} kHz`;
        if (!this.context)
            return `Take at ${kHz(this.rate)}.`;
        return this.context.sampleRate === this.rate
            ? `Decoded at the take's ${kHz(this.rate)}.`
            : `This browser cannot run at ${kHz(this.rate)}: the take is converted to ${kHz(this.context.sampleRate)} before it is heard.`;
    }

    hear(message) {
        switch (message.type) {
            case 'need':
                this.bring(message.index);
                break;
            case 'at':
                this.place = message.frame;
                this.placeTime = message.time;
                if (this.playing !== message.playing) {
                    this.playing = message.playing;
                    this.say('state');
                }
                break;
            case 'ended':
                this.playing = false;
                this.place = this.frames;
                this.say('state');
                break;
            case 'heard':
                this.say('heard', message);
                break;
            case 'waiting':
                this.say('waiting');
                break;
        }
    }

    async bring(index) {
        for (let tries = 0; tries < 5; tries++) {
            try {
                const { treated } = this, block = await fetchBlock(this.take, index, undefined, treated);
                // Another treatment came meanwhile.
                if (treated !== this.treated)
                    return;
                this.node.port.postMessage({ type: 'block', ...block }, [block.mid, block.side, block.mid2, block.side2].filter(x => x).map(x => x.buffer));
                return;
            } catch (error) {
                this.say('trouble', error.message);
                await new Promise(done => setTimeout(done, 300 * 2 ** tries));
            }
        }
        this.node.port.postMessage({ type: 'failed', index });
    }

    async play() {
        await this.open();
        await this.context.resume();
        if (this.place >= this.frames && !this.loop)
            this.seek(0);
        this.playing = true;
        this.node.port.postMessage({ type: 'play' });
        this.say('state');
    }

    pause() {
        this.playing = false;
        this.node?.port.postMessage({ type: 'pause' });
        this.say('state');
    }

    toggle() {
        return this.playing ? this.pause() : this.play();
    }

    seek(frame) {
        this.place = Math.max(0, Math.min(Math.round(frame), this.frames));
        this.placeTime = this.context?.currentTime ?? 0;
        this.node?.port.postMessage({ type: 'seek', frame: this.place });
        this.say('state');
    }

    /** Repeats a cut; without arguments plays on. */
    repeat(from, to) {
        this.loop = to > from ? { from: Math.round(from), to: Math.round(to) } : null;
        this.node?.port.postMessage({ type: 'loop', from: this.loop?.from ?? 0, to: this.loop?.to ?? 0 });
        if (this.loop && (this.place < this.loop.from || this.place >= this.loop.to))
            this.seek(this.loop.from);
        this.say('state');
    }

    /** 1, or less: 1/4 brings 40 kHz down to 10 kHz. */
    slow(speed) {
        this.speed = speed;
        this.node?.port.postMessage({ type: 'speed', speed });
        this.say('state');
    }

    /** Changes the setting in use. */
    set(change) {
        Object.assign(this.settings[this.using], change);
        this.apply();
    }

    use(name) {
        this.using = name;
        this.apply();
    }

    /** Makes A and B equally loud over a stretch; its powers are measured by the desk once. */
    async equalise(on, from = 0, to = this.frames) {
        this.equal = on;
        const range = `${Math.round(from)}-${Math.round(to)}`;
        if (on && this.powersOf !== range) {
            this.powersOf = range;
            const stretch = `from=${Math.round(from)}&to=${Math.round(to)}`;
            const [raw, treated] = await Promise.all([
                fetchJson(`/sound/${this.take}/powers?${stretch}`),
                this.treated?.version ? fetchJson(`/sound/${this.take}/treated/powers?${stretch}${this.treated.query}`) : null,
            ]);
            this.powers = raw && { ...raw, treated: treated ?? undefined };
        }
        this.apply();
    }

    /** Another treatment: what was fetched of the one before is forgotten. */
    treat(treated) {
        this.treated = treated;
        this.frames = Math.max(this.rawFrames, treated.frames);
        this.powersOf = this.powers = null;
        this.node?.port.postMessage({ type: 'flush', frames: this.frames });
        this.apply();
    }

    apply() {
        this.node?.port.postMessage({ type: 'matrix', values: this.matrix });
        this.say('setting');
    }

    /** The level to the ears in decibels, 0 or less; the meters stand before it. */
    setMonitor(decibels) {
        this.monitorLevel = decibels;
        this.monitor?.gain.setTargetAtTime(ratio(decibels), this.context.currentTime, 0.005);
        this.say('setting');
    }

    /** The frame in the ears at this moment. */
    get heardFrame() {
        if (!this.playing || !this.context)
            return this.place;
        const late = this.context.currentTime - this.placeTime - (this.context.outputLatency || 0);
        const frame = this.place + Math.min(late, 0.2) * this.rate * this.speed;
        const { loop } = this;
        if (loop && frame >= loop.to && this.place < loop.to)
            return loop.from + (frame - loop.to) % (loop.to - loop.from);
        return Math.max(0, Math.min(frame, this.frames));
    }

    say(what, detail) {
        this.dispatchEvent(new CustomEvent(what, { detail }));
    }

    async close() {
        this.closed = true;
        this.playing = false;
        this.node?.port.postMessage({ type: 'end' });
        this.node?.disconnect();
        this.monitor?.disconnect();
        this.room?.players.delete(this);
        if (this.room?.players.size === 0)
            await this.room.context.suspend();
    }
}

async function fetchJson(path) {
    const answer = await fetch(path);
    return answer.ok ? answer.json() : null;
}
