// Binds the controls of listening to a player: what the hand does is heard at once, without a way over the desk.
import { silentBelow } from './matrix.js';

export const levelWords = decibels => decibels <= silentBelow ? 'no side' : `${decibels > 0 ? '+' : ''}${decibels.toFixed(1).replace('.0', '').replace('-', '−')} dB`;

const viewWords = { stereo: '', mono: 'mono fold', mid: 'mid alone', side: 'side alone' };

export function settingWords({ side, view, swap }) {
    return [viewWords[view] || (side <= silentBelow ? 'no side' : `side ${levelWords(side)}`), swap && view === 'stereo' ? 'exchanged' : ''].filter(w => w).join(', ');
}

export class ListenPanel {
    /** root: the element around the controls; player: a Player; chosen: () => the chosen stretch or null; told: called with the side level. */
    constructor(root, player, chosen, told) {
        Object.assign(this, { root, player, chosen, told });
        this.part = name => root.querySelector(`[data-part="${name}"]`);
        this.button = name => root.querySelector(`[data-do="${name}"]`);
        this.bind();
        player.addEventListener('state', () => this.show());
        player.addEventListener('setting', () => this.show());
        player.addEventListener('opened', () => this.show());
        player.addEventListener('waiting', () => this.say('Waiting for sound from the desk.'));
        player.addEventListener('trouble', e => this.say(`The desk does not answer (${e.detail}); trying again.`));
        player.addEventListener('heard', () => this.say(''));
        player.setMonitor(Number(this.part('monitor').value));
        this.show();
    }

    bind() {
        const { player } = this;
        const on = (element, event, action) => element.addEventListener(event, action);
        on(this.button('play'), 'click', () => this.play());
        on(this.button('start'), 'click', () => player.seek(player.loop?.from ?? 0));
        on(this.button('repeat'), 'click', () => this.repeat());
        on(this.part('speed'), 'change', e => player.slow(Number(e.target.value)));
        on(this.part('side'), 'input', e => this.setSide(Number(e.target.value)));
        on(this.part('swap'), 'change', e => player.set({ swap: e.target.checked }));
        on(this.part('equal'), 'change', () => this.equalise());
        on(this.part('monitor'), 'input', e => player.setMonitor(Number(e.target.value)));
        for (const radio of this.root.querySelectorAll('input[name="view"]'))
            on(radio, 'change', () => player.set({ view: radio.value }));
        for (const radio of this.root.querySelectorAll('input[name="using"]'))
            on(radio, 'change', () => player.use(radio.value));
    }

    async play() {
        try {
            await this.player.toggle();
        } catch (error) {
            this.say(`This browser cannot play: ${error.message}`);
        }
    }

    repeat() {
        const { player } = this, chosen = this.chosen();
        if (player.loop)
            player.repeat(0, 0);
        else if (chosen)
            player.repeat(chosen.from, chosen.to);
        else
            this.say('Choose a stretch on the time line first.');
    }

    /** The chosen stretch has changed: what repeats follows it. */
    chosenChanged() {
        const chosen = this.chosen();
        if (this.player.loop && chosen)
            this.player.repeat(chosen.from, chosen.to);
        if (this.player.equal)
            this.equalise();
    }

    setSide(decibels) {
        this.player.set({ side: decibels, ...(this.player.settings[this.player.using].view === 'stereo' ? {} : { view: 'stereo' }) });
        this.told(decibels <= silentBelow ? -Infinity : decibels);
    }

    nudge(by) {
        const { side } = this.player.settings[this.player.using];
        this.setSide(Math.max(silentBelow, Math.min(12, side + by)));
    }

    equalise() {
        const on = this.part('equal').checked, chosen = this.chosen();
        return this.player.equalise(on, chosen?.from, chosen?.to);
    }

    /** Keys that work anywhere on the page of a take; false when it was none of ours. */
    key(key) {
        const { player } = this, setting = player.settings[player.using];
        const actions = {
            ' ': () => this.play(),
            a: () => player.use('A'),
            b: () => player.use('B'),
            m: () => player.set({ view: setting.view === 'mono' ? 'stereo' : 'mono' }),
            '[': () => this.nudge(-0.5),
            ']': () => this.nudge(0.5),
        };
        if (!actions[key])
            return false;
        actions[key]();
        return true;
    }

    show() {
        const { player } = this, setting = player.settings[player.using];
        const play = this.button('play');
        play.textContent = player.playing ? 'Pause' : 'Play';
        this.button('repeat').setAttribute('aria-pressed', String(player.loop !== null));
        this.part('side').value = String(setting.side);
        this.part('side').setAttribute('aria-valuetext', levelWords(setting.side));
        this.part('side-word').value = levelWords(setting.side);
        this.part('swap').checked = setting.swap;
        this.part('monitor-word').value = player.monitorLevel <= -48 ? 'off' : `${player.monitorLevel} dB`.replace('-', '−');
        for (const radio of this.root.querySelectorAll('input[name="view"]'))
            radio.checked = radio.value === setting.view;
        for (const radio of this.root.querySelectorAll('input[name="using"]'))
            radio.checked = radio.value === player.using;
        for (const name of ['A', 'B'])
            this.part(`words-${name}`).textContent = settingWords(player.settings[name]);
        this.part('rate').textContent = player.rateNote;
    }

    say(text) {
        const line = this.part('listen-state');
        if (line.textContent !== text)
            line.textContent = text;
    }
}
