// The live page: a two-channel input heard as stereo, watched and lined up. Called once by LivePage.razor.
import { coefficients, ratio, silentBelow } from '/sound/matrix.js';
import { outlet } from '/sound/player.js';
import { levelWords } from '/sound/panel.js';
import { judge, judgePlace } from '/sound/watch.js';
import { Meters } from '/sound/meters.js';
import { waveOf } from './wave.js';

/** What is asked of the browser: two channels, as they are. */
export const wanted = { channelCount: { ideal: 2 }, echoCancellation: false, noiseSuppression: false, autoGainControl: false };

const places = ['ahead', 'left', 'right'];
const mostKeptSeconds = 600;

export function open(root) {
    return new LivePage(root);
}

class LivePage {
    constructor(root) {
        this.root = root;
        this.part = name => root.querySelector(`[data-part="${name}"]`);
        this.button = name => root.querySelector(`[data-do="${name}"]`);
        this.setting = { side: 0, view: 'stereo', swap: false };
        this.roles = { exchanged: false, turned: false };
        this.reports = [];
        this.kept = [];
        this.asking = null;
        this.meters = new Meters(this.part('meters'), () => this.mid ? { mid: this.mid, side: this.side, rate: this.context.sampleRate } : null);
        this.bind();
        this.show();
        this.listInputs();
        root.livePage = this;
        root.dataset.ready = 'yes';
    }

    bind() {
        const on = (name, event, action) => this.part(name).addEventListener(event, action);
        this.button('begin').addEventListener('click', () => this.context ? this.end() : this.begin());
        this.button('exchange').addEventListener('click', () => this.setRoles({ exchanged: !this.roles.exchanged }));
        this.button('turn').addEventListener('click', () => this.setRoles({ turned: !this.roles.turned }));
        this.button('keep').addEventListener('click', () => this.keeping ? this.keepNoMore() : this.keep());
        on('side', 'input', e => this.set({ side: Number(e.target.value), view: 'stereo' }));
        on('monitor', 'input', e => this.setMonitor(Number(e.target.value)));
        on('ears', 'change', e => this.setEars(e.target.checked));
        for (const radio of this.root.querySelectorAll('input[name="view"]'))
            radio.addEventListener('change', () => this.set({ view: radio.value }));
        for (const place of places)
            this.button(`hear-${place}`).addEventListener('click', () => this.ask(place));
        navigator.mediaDevices?.addEventListener('devicechange', this.onDevices = () => this.listInputs());
    }

    async listInputs() {
        const list = this.part('input');
        const inputs = (await navigator.mediaDevices?.enumerateDevices() ?? []).filter(d => d.kind === 'audioinput' && d.deviceId);
        const chosen = list.value;
        list.replaceChildren(new Option('the system’s input', ''), ...inputs.filter(d => d.deviceId !== 'default').map((d, n) => new Option(d.label || `input ${n + 1}`, d.deviceId)));
        list.value = [...list.options].some(o => o.value === chosen) ? chosen : '';
    }

    async begin() {
        const device = this.part('input').value;
        try {
            this.stream = await navigator.mediaDevices.getUserMedia({ audio: { ...wanted, ...(device ? { deviceId: { exact: device } } : {}) } });
        } catch (error) {
            this.say(error.name === 'NotAllowedError' ? 'The browser was not allowed to listen: allow the microphone for this page and begin again.'
                : error.name === 'NotFoundError' ? 'There is no input: plug the recorder in, set it to be a USB audio interface, and begin again.'
                    : `The input cannot be opened: ${error.message}`);
            return;
        }
        const track = this.stream.getAudioTracks()[0];
        track.addEventListener('ended', () => { this.say('The input went away: look at the cable, then begin again.'); this.end(); });
        this.settings = track.getSettings();
        try {
            this.context = new AudioContext({ latencyHint: 'interactive', ...(this.settings.sampleRate ? { sampleRate: this.settings.sampleRate } : {}) });
        } catch {
            this.context = new AudioContext({ latencyHint: 'interactive' });
        }
        await this.context.audioWorklet.addModule('/live/live-worklet.js');
        this.source = this.context.createMediaStreamSource(this.stream);
        this.node = new AudioWorkletNode(this.context, 'athwart-live', {
            numberOfInputs: 1, numberOfOutputs: 2, outputChannelCount: [2, 2], channelInterpretation: 'discrete',
            processorOptions: { matrix: coefficients(this.setting) },
        });
        this.node.port.onmessage = ({ data }) => this.hear(data);
        this.source.connect(this.node);
        Object.assign(this, outlet(this.context, this.node));
        this.monitor.gain.value = 0;
        this.node.port.postMessage({ type: 'roles', ...this.roles });
        this.reports = [];
        this.setMonitor(Number(this.part('monitor').value));
        await this.context.resume();
        this.listInputs();
        this.say('Listening. Nothing is recorded.');
        this.show();
    }

    async end() {
        if (this.keeping)
            this.keepNoMore();
        for (const track of this.stream?.getTracks() ?? [])
            track.stop();
        this.node?.port.postMessage({ type: 'end' });
        const context = this.context;
        this.context = this.node = this.mid = this.side = this.monitor = null;
        this.asking = null;
        await context?.close();
        this.show();
    }

    hear(message) {
        if (message.type === 'heard')
            this.meters.push({ ...message, rate: this.context?.sampleRate });
        else if (message.type === 'watch')
            this.watch(message);
        else if (message.type === 'kept')
            this.keepBlock(message.channels);
        else if (message.type === 'kept-all')
            this.save();
    }

    watch(report) {
        this.reports.push(report);
        if (this.reports.length > 100)
            this.reports.shift();
        this.drawBars(report);
        this.answer(report);
        if (this.reports.length % 5 === 0)
            this.showWatches();
    }

    showWatches() {
        const found = judge(this.reports);
        const { settings } = this;
        if (settings?.echoCancellation || settings?.noiseSuppression || settings?.autoGainControl)
            found.unshift({ kind: 'processed', severity: 'fault', text: 'The browser says it processes this input (echo, noise or level).', remedy: 'Use another browser or input: processed sound cannot be judged or decoded.' });
        const text = JSON.stringify(found.map(f => [f.kind, f.text]));
        if (text === this.told)
            return;
        this.told = text;
        const list = this.part('watches');
        list.replaceChildren(...(found.length ? found : [{ severity: 'good', text: 'Two different channels come in; nothing stands out.', remedy: '' }]).map(f => {
            const item = document.createElement('li');
            item.dataset.kind = f.kind ?? 'good';
            const word = document.createElement('span');
            word.className = `severity ${f.severity}`;
            word.textContent = f.severity;
            item.append(word, ` ${f.text} `);
            if (f.remedy) {
                const remedy = document.createElement('span');
                remedy.className = 'remedy';
                remedy.textContent = f.remedy;
                item.append(remedy);
            }
            return item;
        }));
    }

    drawBars(report) {
        for (const [name, channel] of [['mid', report.first], ['side', report.second]]) {
            const peak = channel.peak > 0 ? 20 * Math.log10(channel.peak) : -Infinity;
            const meter = this.part(`bar-${name}`);
            meter.value = Math.max(-60, Math.min(0, peak));
            this.part(`word-${name}`).value = channel.moving === 0 ? 'digital silence' : `${peak.toFixed(1).replace('-', '−')} dBFS`;
        }
    }

    // ---- line-up

    ask(place) {
        // The middle of the last second: a sound that was made too early does not count as the quiet.
        const before = this.reports.slice(-10).map(r => r.first.power + r.second.power).sort((a, b) => a - b);
        const floor = Math.max(1e-9, before[before.length >> 1] ?? 0);
        this.asking = { place, floor, until: performance.now() + 15000, gathered: null };
        for (const p of places)
            this.button(`hear-${p}`).setAttribute('aria-pressed', String(p === place));
        this.tellLineUp(place, place === 'ahead' ? 'Make a sharp sound straight ahead now: a clap, a click.' : `Make a sharp sound on the ${place} now.`);
    }

    answer(report) {
        const asking = this.asking;
        if (!asking)
            return;
        if (performance.now() > asking.until) {
            this.tellLineUp(asking.place, 'No sound stood out in 15 seconds: nearer or louder, then press again.');
            this.asking = null;
            return;
        }
        // Ten times the level before it: the sound asked for. Two tenths of a second are judged.
        if (!asking.gathered && report.first.power + report.second.power < asking.floor * 10)
            return;
        asking.gathered ??= [];
        asking.gathered.push(report);
        if (asking.gathered.length < 2)
            return;
        const sum = pick => asking.gathered.reduce((total, r) => total + pick(r), 0);
        const verdict = judgePlace(asking.place, sum(r => r.first.power), sum(r => r.second.power), sum(r => r.cross));
        this.tellLineUp(asking.place, verdict.text, verdict);
        this.asking = null;
    }

    tellLineUp(place, text, verdict) {
        const line = this.part(`said-${place}`);
        line.textContent = text;
        line.className = verdict ? (verdict.good ? 'good' : 'bad') : 'waiting';
        if (verdict?.fix === 'exchange')
            line.textContent += ' Press “Exchange mid and side”.';
        if (verdict?.fix === 'turn')
            line.textContent += ' Press “Turn the side over”.';
    }

    // ---- hands

    setRoles(change) {
        Object.assign(this.roles, change);
        this.reports = [];
        this.node?.port.postMessage({ type: 'roles', ...this.roles });
        this.show();
    }

    set(change) {
        Object.assign(this.setting, change);
        this.node?.port.postMessage({ type: 'matrix', values: coefficients(this.setting) });
        this.show();
    }

    setEars(on) {
        this.ears = on;
        this.setMonitor(Number(this.part('monitor').value));
    }

    setMonitor(decibels) {
        this.level = decibels;
        // Opened over a third of a second: nobody is startled.
        this.monitor?.gain.setTargetAtTime(this.ears ? ratio(decibels) : 0, this.context.currentTime, 0.06);
        this.part('monitor-word').value = `${decibels} dB`.replace('-', '−');
    }

    keep() {
        this.kept = [];
        this.keptFrames = 0;
        this.keeping = true;
        this.node.port.postMessage({ type: 'keep' });
        this.show();
    }

    keepBlock(channels) {
        this.kept.push(channels);
        this.keptFrames += channels[0].length;
        const seconds = this.keptFrames / this.context?.sampleRate;
        this.say(`Recording the raw pair: ${Math.floor(seconds)} s.`);
        if (this.keeping && seconds >= mostKeptSeconds)
            this.keepNoMore();
    }

    keepNoMore() {
        this.keeping = false;
        this.keptRate = this.context.sampleRate;
        this.node.port.postMessage({ type: 'keep-no-more' });
        this.show();
    }

    save() {
        const link = document.createElement('a');
        link.href = URL.createObjectURL(waveOf(this.kept, this.keptRate));
        link.download = `live-${new Date().toISOString().slice(0, 19).replaceAll(':', '-')}.wav`;
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 60000);
        this.kept = [];
        this.say('The raw pair was saved as a file by the browser. Nothing more is recorded.');
    }

    // ---- telling

    show() {
        const live = this.context !== null && this.context !== undefined;
        this.button('begin').textContent = live ? 'Stop listening' : 'Begin to listen';
        this.button('exchange').setAttribute('aria-pressed', String(this.roles.exchanged));
        this.button('turn').setAttribute('aria-pressed', String(this.roles.turned));
        this.button('keep').disabled = !live;
        this.button('keep').textContent = this.keeping ? 'Stop and save the file' : 'Record the raw pair';
        this.button('keep').setAttribute('aria-pressed', String(Boolean(this.keeping)));
        for (const place of places)
            this.button(`hear-${place}`).disabled = !live;
        this.part('side').value = String(this.setting.side);
        this.part('side').setAttribute('aria-valuetext', levelWords(this.setting.side));
        this.part('side-word').value = levelWords(Math.max(silentBelow, this.setting.side));
        this.part('channels').textContent = `channel ${this.roles.exchanged ? 2 : 1} is mid, channel ${this.roles.exchanged ? 1 : 2} is side${this.roles.turned ? ', turned over' : ''}`;
        for (const radio of this.root.querySelectorAll('input[name="view"]'))
            radio.checked = radio.value === this.setting.view;
        this.part('latency').textContent = live ? this.latencyWords : '';
        this.root.classList.toggle('is-live', live);
    }

    /** From the microphone to the ear, as far as the browser says; the recorder's own buffer comes on top. */
    get latencyWords() {
        const { context, settings } = this;
        const parts = [['input', settings.latency], ['decoding', context.baseLatency], ['output', context.outputLatency]].filter(([, seconds]) => seconds > 0);
        const total = parts.reduce((sum, [, seconds]) => sum + seconds, 0);
        return `${(context.sampleRate / 1000).toFixed(1).replace('.0', '')} kHz; about ${Math.round(total * 1000)} ms from microphone to ear (${parts.map(([name, seconds]) => `${name} ${Math.round(seconds * 1000)} ms`).join(', ')}), the recorder’s own delay not counted.`;
    }

    say(text) {
        this.part('live-state').textContent = text;
    }

    async close() {
        navigator.mediaDevices?.removeEventListener('devicechange', this.onDevices);
        this.meters.close();
        await this.end();
    }
}
