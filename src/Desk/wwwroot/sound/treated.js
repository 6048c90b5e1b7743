// A take as recorded against the same take as treated: both run together, frame by frame, and one of them is in the ears. Called by TreatedPanel.razor.
import { Meters } from './meters.js';
import { Player } from './player.js';

/** root: the element of the component. */
export function open(root) {
    return new TreatedPanel(root);
}

class TreatedPanel {
    constructor(root) {
        this.root = root;
        this.part = name => root.querySelector(`[data-part="${name}"]`);
        this.button = name => root.querySelector(`[data-do="${name}"]`);
        this.meters = new Meters(this.part('meters'), () => this.player?.mid ? { mid: this.player.mid, side: this.player.side, rate: this.player.context.sampleRate } : null);
        this.bind();
        // For tests and for the curious.
        root.treatedPanel = this;
    }

    bind() {
        this.button('play').addEventListener('click', () => this.play());
        this.button('start').addEventListener('click', () => this.player?.seek(this.from));
        this.part('loop').addEventListener('change', () => this.loop());
        this.part('equal').addEventListener('change', () => this.equalise());
        this.part('monitor').addEventListener('input', () => this.setMonitor());
        for (const radio of this.root.querySelectorAll('input[name="hear"]'))
            radio.addEventListener('change', () => this.player?.use(radio.value));
    }

    /** Shows a take, or one of its cuts, as it is treated now; what plays goes on. */
    async show(take, effect, from, to) {
        const turn = this.turn = {};
        const query = effect ? `&effect=${effect}` : '';
        const [about, treated] = await Promise.all([read(`/sound/${take}`), read(`/sound/${take}/treated?v=${Date.now()}${query}`)]);
        if (turn !== this.turn)
            return;
        this.say(about.message ?? treated.message ?? '');
        if (about.message)
            return;
        const second = treated.version ? { ...treated, query } : { version: '', frames: about.frames, query };
        this.part('about').textContent = !treated.version ? 'No step yet: both are the take as recorded.'
            : treated.frames === about.frames ? '' : 'The treatment changes the speed: the two drift apart as they play.';
        Object.assign(this, { from, to });
        if (this.player?.take !== take) {
            await this.player?.close();
            this.player = this.playerFor(about, second);
        } else {
            this.player.treat(second);
        }
        // Silence of the side is below the slider's end.
        Object.assign(this.player.settings.A, { side: 0, treated: false });
        Object.assign(this.player.settings.B, { side: treated.version ? treated.sideLevel ?? -Infinity : 0, treated: Boolean(treated.version) });
        this.player.apply();
        this.loop();
        await this.equalise();
        this.root.dataset.ready = second.version || 'raw';
    }

    playerFor(about, treated) {
        const player = new Player({ take: about.id, rate: about.rate, frames: about.frames, treated });
        player.using = this.root.querySelector('input[name="hear"]:checked').value;
        player.seek(this.from);
        player.addEventListener('state', () => { this.button('play').textContent = player.playing ? 'Pause' : 'Play'; });
        player.addEventListener('heard', e => { this.meters.push({ ...e.detail, rate: player.context.sampleRate }); this.tell(''); });
        player.addEventListener('waiting', () => this.tell('Waiting for sound from the desk.'));
        player.addEventListener('trouble', e => this.tell(`The desk does not answer (${e.detail}); trying again.`));
        this.player = player;
        this.setMonitor();
        return player;
    }

    async play() {
        try {
            await this.player?.toggle();
        } catch (error) {
            this.tell(`This browser cannot play: ${error.message}`);
        }
    }

    loop() {
        const on = this.part('loop').checked;
        this.player?.repeat(on ? this.from : 0, on ? this.to : 0);
    }

    equalise() {
        return this.player?.equalise(this.part('equal').checked, this.from, this.to);
    }

    setMonitor() {
        const level = Number(this.part('monitor').value);
        this.part('monitor-word').value = level <= -48 ? 'off' : `${level} dB`.replace('-', '−');
        this.player?.setMonitor(level <= -48 ? -Infinity : level);
    }

    tell(text) {
        const line = this.part('listen-state');
        if (line.textContent !== text)
            line.textContent = text;
    }

    say(text) {
        this.part('trouble').hidden = !text;
        this.part('trouble').textContent = text;
    }

    close() {
        this.turn = null;
        this.meters.close();
        return this.player?.close();
    }
}

// The answer, or { message } of what went wrong.
async function read(path) {
    const answer = await fetch(path, { cache: 'no-store' });
    const said = await answer.json().catch(() => null);
    return answer.ok ? said : { message: said?.message ?? `The desk answered ${answer.status}.` };
}
