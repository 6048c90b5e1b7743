// The page of a take: the time line, the player and the meters put together. Called once by TakeView.razor.
import { ListenPanel } from '/sound/panel.js';
import { Meters } from '/sound/meters.js';
import { ratio } from '/sound/matrix.js';
import { Player } from '/sound/player.js';
import { TakeView } from './view.js';

/** root: the element of the component; id: the take; desk: the component, told what is chosen. */
export async function open(root, id, desk) {
    const part = name => root.querySelector(`[data-part="${name}"]`);
    const answer = await fetch(`/sound/${id}`);
    if (!answer.ok)
        return trouble(part('trouble'), answer);
    return new TakePage(root, await answer.json(), desk, part);
}

async function trouble(line, answer) {
    line.hidden = false;
    line.textContent = (await answer.json().catch(() => null))?.message ?? `The desk cannot open this take (${answer.status}).`;
    return { choose() { }, place: () => null, setMarkers() { }, goTo() { }, close() { } };
}

class TakePage {
    constructor(root, take, desk, part) {
        Object.assign(this, { root, take, desk, part });
        this.view = new TakeView(root, take);
        this.player = new Player({ take: take.id, rate: take.rate, frames: take.frames });
        this.meters = new Meters(part('meters'), () => this.player.mid ? { mid: this.player.mid, side: this.player.side, rate: this.player.context.sampleRate } : null);
        this.panel = new ListenPanel(root, this.player, () => this.view.selection, level => this.tellSide(level));
        part('roles').textContent = take.roles;
        this.bindTools();
        this.bindView();
        this.bindKeys();
        this.view.follow = part('follow').checked;
        this.view.tellView();
        // For tests and for the curious: everything of this page hangs here.
        root.takePage = this;
        root.dataset.ready = 'yes';
    }

    bindTools() {
        const { view, part, root } = this;
        const actions = {
            in: () => view.zoom(2, view.near()),
            out: () => view.zoom(0.5, view.near()),
            whole: () => view.whole(),
            chosen: () => view.selection && view.look(view.selection.from, view.selection.to),
        };
        for (const [name, action] of Object.entries(actions))
            root.querySelector(`[data-do="${name}"]`).addEventListener('click', action);
        part('show').addEventListener('change', e => view.setPicture(e.target.value));
        part('gain').addEventListener('change', e => view.setGain(Number(e.target.value)));
        part('follow').addEventListener('change', e => { view.follow = e.target.checked; });
        for (const button of root.querySelectorAll('button.place'))
            button.addEventListener('click', () => view.pick(Number(button.dataset.finding)));
    }

    bindView() {
        const { view, player, meters } = this;
        view.addEventListener('cursor', e => player.seek(e.detail));
        view.addEventListener('play', () => this.panel.play());
        view.addEventListener('selection', e => this.tellChosen(e.detail));
        view.addEventListener('finding', e => this.tellFinding(e.detail));
        view.addEventListener('hover', e => this.tellFinding(e.detail));
        player.addEventListener('heard', e => meters.push({ ...e.detail, rate: player.context.sampleRate }));
        player.addEventListener('setting', () => this.showWidth());
        player.addEventListener('state', () => {
            if (player.playing && !this.wasPlaying)
                meters.reset();
            this.wasPlaying = player.playing;
            if (!player.playing)
                view.setPlay(player.context ? player.place : null, false);
            this.follow();
        });
        this.showWidth();
    }

    // The place in the ears, once a picture while it plays.
    follow() {
        if (!this.player.playing || this.following)
            return;
        this.following = requestAnimationFrame(() => {
            this.following = null;
            this.view.setPlay(this.player.heardFrame, true);
            this.follow();
        });
    }

    showWidth() {
        const setting = this.player.settings[this.player.using];
        this.view.setSideGain(setting.view === 'stereo' ? ratio(setting.side) * (setting.swap ? -1 : 1) : setting.view === 'side' ? 1 : 0);
    }

    bindKeys() {
        this.onKey = e => {
            if (e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey || !document.body.contains(this.root))
                return;
            const target = e.target;
            if (target.closest('input[type="text"], input[type="search"], input[type="number"], textarea, select, [contenteditable], dialog'))
                return;
            // Space presses the button it stands on, and a radio or a tick.
            if (e.key === ' ' && target.closest('button, input, summary, a'))
                return;
            // The desk's own setting: letters alone may be switched off.
            if (e.key !== ' ' && localStorage.getItem('desk-single-keys') === 'off' || document.querySelector('dialog[open]'))
                return;
            if (this.panel.key(e.key))
                e.preventDefault();
        };
        document.addEventListener('keydown', this.onKey);
    }

    tellChosen(selection) {
        this.panel.chosenChanged();
        clearTimeout(this.telling);
        this.telling = setTimeout(() => this.desk?.invokeMethodAsync('OnChosen', selection?.from ?? 0, selection?.to ?? 0).catch(() => { }), 150);
    }

    tellSide(level) {
        clearTimeout(this.tellingSide);
        this.tellingSide = setTimeout(() => this.desk?.invokeMethodAsync('OnSideLevel', Number.isFinite(level) ? level : null).catch(() => { }), 150);
    }

    tellFinding(told) {
        const line = this.part('detail');
        line.hidden = !told;
        line.replaceChildren();
        for (const row of this.root.querySelectorAll('tr[data-finding]'))
            row.classList.toggle('shown', told !== null && Number(row.dataset.finding) === told?.index);
        if (!told)
            return;
        const { finding } = told, say = (tag, text, kind) => {
            if (!text)
                return;
            const element = document.createElement(tag);
            element.textContent = text;
            if (kind)
                element.className = kind;
            line.append(element, ' ');
        };
        say('span', finding.severity, `severity ${finding.severity}`);
        say('strong', finding.message);
        say('span', finding.evidence.join(' · '), 'evidence');
        say('span', finding.remedy, 'remedy');
    }

    /** Chooses a stretch and shows it. */
    choose(from, to) {
        this.view.select(from, to);
        if (this.view.selection)
            this.view.look(from, to);
    }

    /** The chosen stretch, or the cursor twice. */
    place() {
        const { selection, cursor } = this.view;
        return selection ? [selection.from, selection.to] : [cursor, cursor];
    }

    /** The recordist's own markers. */
    setMarkers(markers) {
        this.view.setMarkers(markers);
    }

    goTo(frame) {
        this.view.setCursor(frame);
        this.view.reveal(frame);
    }

    close() {
        document.removeEventListener('keydown', this.onKey);
        cancelAnimationFrame(this.following);
        clearTimeout(this.telling);
        clearTimeout(this.tellingSide);
        this.view.close();
        this.meters.close();
        return this.player.close();
    }
}
