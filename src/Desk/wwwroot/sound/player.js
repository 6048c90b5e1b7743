// The player of one take: fetches raw mid and side from the desk and hands them to the audio thread.
import { coefficients, equalLoudness, ratio } from './matrix.js';

/** Frames fetched at once: a third of a second at 96 kHz. */
export const blockFrames = 32768;

/** One stretch of a take: { index, mid, side }. */
export async function fetchBlock(take, index, signal) {
    const answer = await fetch(`/sound/${take}/pair?from=${index * blockFrames}&frames=${blockFrames}`, { signal });
    if (!answer.ok)
        throw new Error(`the desk answered ${answer.status}`);
    const samples = new Float32Array(await answer.arrayBuffer());
    const half = samples.length / 2;
    return { index, mid: samples.slice(0, half), side: samples.slice(half) };
}

/** The audio context for a take: at its own rate where the browser can. */
export function contextFor(rate) {
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
    /** take: id; rate in hertz; frames. Nothing is opened before the first play. */
    constructor({ take, rate, frames }) {
        super();
        this.take = take;
        this.rate = rate;
        this.frames = frames;
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
        const [a, b] = [coefficients(this.settings.A), coefficients(this.settings.B)];
        const trims = this.equal && this.powers ? equalLoudness(a, b, this.powers) : [1, 1];
        return this.using === 'A' ? a.map(x => x * trims[0]) : b.map(x => x * trims[1]);
    }

    /** Opens the audio once; must follow a click or a key. */
    open() {
        return this.opening ??= this.openOnce();
    }

    async openOnce() {
        this.context = contextFor(this.rate);
        await this.context.audioWorklet.addModule('/sound/take-worklet.js');
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
                const block = await fetchBlock(this.take, index);
                this.node.port.postMessage({ type: 'block', ...block }, [block.mid.buffer, block.side.buffer]);
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
            const answer = await fetch(`/sound/${this.take}/powers?from=${Math.round(from)}&to=${Math.round(to)}`);
            this.powers = answer.ok ? await answer.json() : null;
        }
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
        this.playing = false;
        this.node?.port.postMessage({ type: 'end' });
        await this.context?.close();
    }
}
