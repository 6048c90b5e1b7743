// The take on its time line: overview, zoom to the sample, findings, markers, direction trail, a cut chosen by hand or by key.
import { coloursOf, whenLightChanges } from './colours.js';
import { columnsFor, drawSamples, drawTrail, drawWave, gather, levelFor, roles, SpectrumLane } from './lanes.js';
import { clock, ruler, span } from './time.js';
import { Tiles } from './tiles.js';

const pictures = {
    'mid-side': { lanes: ['mid', 'side'] },
    'left-right': { lanes: ['left', 'right'] },
    'mid': { lanes: ['mid'] },
    'side': { lanes: ['side'] },
    'left': { lanes: ['left'] },
    'right': { lanes: ['right'] },
    'spectrum-mid-side': { lanes: ['mid', 'side'], pair: 'mid-side' },
    'spectrum-left-right': { lanes: ['left', 'right'], pair: 'left-right' },
};

const gutter = 64, rulerHeight = 26, findingHeight = 26, trailHeight = 72, gap = 6;

export class TakeView extends EventTarget {
    /** root: the element that holds the canvases; take: what /sound/ID says of the take. */
    constructor(root, take) {
        super();
        this.root = root;
        this.take = take;
        this.part = name => root.querySelector(`[data-part="${name}"]`);
        this.picture = this.part('picture');
        this.overlay = this.part('overlay');
        this.overview = this.part('overview');
        this.tiles = new Tiles(take, () => this.wake(), fraction => this.tellProgress(fraction));
        this.spectra = new SpectrumLane(this.tiles);
        this.show = pictures[root.dataset.picture] ? root.dataset.picture : 'mid-side';
        this.gain = 1;
        this.sideGain = 1;
        this.start = 0;
        this.framesPerPixel = 1;
        this.cursor = 0;
        this.playFrame = null;
        this.selection = null;
        this.finding = -1;
        this.hovered = -1;
        this.times = [];
        this.own = [];
        this.colours = coloursOf(root);
        this.endWatch = whenLightChanges(() => { this.colours = coloursOf(root); this.wake(); });
        this.sizes = new ResizeObserver(() => this.resize());
        this.sizes.observe(this.picture.parentElement);
        this.sizes.observe(this.overview.parentElement);
        this.resize();
        this.whole();
        this.listen();
    }

    get frames() {
        return this.take.frames;
    }

    // ---- where one looks

    resize() {
        this.scale = Math.min(3, devicePixelRatio || 1);
        for (const canvas of [this.picture, this.overlay, this.overview]) {
            const { clientWidth, clientHeight } = canvas.parentElement;
            canvas.width = Math.max(1, Math.round(clientWidth * this.scale));
            canvas.height = Math.max(1, Math.round(clientHeight * this.scale));
        }
        this.left = Math.round(gutter * this.scale);
        this.width = Math.max(16, this.picture.width - this.left);
        this.overviewWidth = Math.max(16, this.overview.width - this.left);
        this.data = [columnsFor(this.width), columnsFor(this.width)];
        this.overviewData = columnsFor(this.overviewWidth);
        this.overviewDrawn = null;
        this.clamp();
        this.wake();
    }

    /** How many frames the picture is wide. */
    get shown() {
        return this.width * this.framesPerPixel;
    }

    whole() {
        this.framesPerPixel = Math.max(1e-9, this.frames) / this.width;
        this.start = 0;
        this.wake();
        this.tellView();
    }

    clamp() {
        const widest = Math.max(this.frames, 16) / this.width;
        // No closer than 40 pixels a frame: there is nothing between samples.
        this.framesPerPixel = Math.max(Math.min(this.framesPerPixel, widest), Math.min(widest, 1 / (40 * this.scale)));
        this.start = Math.max(0, Math.min(this.start, this.frames - this.shown));
    }

    /** Nearer or farther, with one frame held in its place. */
    zoom(factor, around = this.start + this.shown / 2) {
        const share = (around - this.start) / this.shown;
        this.framesPerPixel /= factor;
        this.clamp();
        this.start = around - share * this.shown;
        this.clamp();
        this.wake();
        this.tellView();
    }

    pan(frames) {
        this.start += frames;
        this.clamp();
        this.wake();
        this.tellView();
    }

    /** Shows a stretch with some room around it. */
    look(from, to) {
        const length = Math.max(to - from, 32);
        this.framesPerPixel = length * 1.25 / this.width;
        this.clamp();
        this.start = (from + to) / 2 - this.shown / 2;
        this.clamp();
        this.wake();
        this.tellView();
    }

    reveal(frame) {
        if (frame < this.start || frame > this.start + this.shown) {
            this.start = frame - this.shown * 0.1;
            this.clamp();
            this.wake();
            this.tellView();
        }
    }

    frameAt(x) {
        return Math.max(0, Math.min(this.frames, this.start + (x - this.left) * this.framesPerPixel));
    }

    xOf(frame) {
        return this.left + (frame - this.start) / this.framesPerPixel;
    }

    setPicture(name) {
        this.show = pictures[name] ? name : 'mid-side';
        this.wake();
    }

    setGain(decibels) {
        this.gain = 10 ** (decibels / 20);
        this.wake();
    }

    /** The side level that the trail is drawn for. */
    setSideGain(gain) {
        this.sideGain = gain;
        this.wake();
    }

    setMarkers(markers) {
        this.own = markers;
        this.wake();
    }

    setPlay(frame, playing) {
        this.playFrame = frame;
        if (playing && this.follow && (frame > this.start + this.shown * 0.95 || frame < this.start)) {
            this.start = frame - this.shown * 0.05;
            this.clamp();
            this.wake();
        }
        this.drawOverlay();
    }

    // ---- choosing

    select(from, to) {
        const [a, b] = [from, to].map(f => Math.round(Math.max(0, Math.min(this.frames, f))));
        this.selection = a === b ? null : { from: Math.min(a, b), to: Math.max(a, b) };
        this.drawOverlay();
        this.tellSelection();
    }

    setCursor(frame, seek = true) {
        this.cursor = Math.round(Math.max(0, Math.min(this.frames, frame)));
        this.drawOverlay();
        this.tellView();
        if (seek)
            this.say('cursor', this.cursor);
    }

    /** The finding with this number in the list, shown and told. */
    pick(index, look = true) {
        const finding = this.take.findings[index];
        if (!finding)
            return;
        this.finding = index;
        if (look && finding.from !== null)
            this.look(finding.from, finding.to);
        this.wake();
        this.say('finding', { index, finding });
    }

    step(direction) {
        const placed = this.take.findings.map((f, n) => ({ f, n })).filter(e => e.f.from !== null).sort((a, b) => a.f.from - b.f.from);
        if (placed.length === 0)
            return;
        const now = placed.findIndex(e => e.n === this.finding);
        this.pick(placed[(now < 0 ? (direction > 0 ? 0 : placed.length - 1) : (now + direction + placed.length) % placed.length)].n);
    }

    // ---- drawing

    wake() {
        this.due ??= requestAnimationFrame(() => {
            this.due = null;
            const began = performance.now();
            this.draw();
            this.drawOverlay();
            this.times.push(performance.now() - began);
            if (this.times.length > 600)
                this.times.shift();
        });
    }

    layout() {
        const s = this.scale, { lanes, pair } = pictures[this.show];
        const top = (rulerHeight + findingHeight) * s, bottom = this.picture.height - (trailHeight + gap) * s;
        const height = Math.floor((bottom - top - gap * s * (lanes.length - 1)) / lanes.length);
        return {
            pair,
            lanes: lanes.map((role, n) => ({ role, y: Math.round(top + n * (height + gap * s)), height })),
            trail: { y: Math.round(bottom + gap * s), height: Math.round(trailHeight * s) },
        };
    }

    draw() {
        const g = this.picture.getContext('2d', { alpha: false }), c = this.colours, s = this.scale;
        g.fillStyle = c.ground;
        g.fillRect(0, 0, this.picture.width, this.picture.height);
        const layout = this.layout();
        for (const [n, lane] of layout.lanes.entries())
            this.drawLane(g, lane, n, layout.pair);
        this.drawTrail(g, layout.trail);
        this.drawRuler(g);
        this.drawFindings(g);
        this.drawMarkers(g, layout);
        // What stands in the gutter is drawn last: pictures of tiles may reach into it.
        g.fillStyle = c.ground;
        g.fillRect(0, 0, this.left, this.picture.height);
        g.fillStyle = c.line;
        g.fillRect(this.left - Math.round(s), 0, Math.round(s), this.picture.height);
        for (const lane of layout.lanes)
            this.drawScale(g, lane, layout.pair);
        this.drawTrailScale(g, layout.trail);
        this.drawGutterText(g, 'time', rulerHeight / 2 * s);
        this.drawGutterText(g, 'findings', (rulerHeight + findingHeight / 2) * s);
        this.drawOverview();
    }

    drawLane(g, lane, n, pair) {
        const c = this.colours, s = this.scale, box = { x: this.left, y: lane.y, scale: s };
        g.fillStyle = c.band;
        g.fillRect(this.left, lane.y, this.width, lane.height);
        g.save();
        g.beginPath();
        g.rect(this.left, lane.y, this.width, lane.height);
        g.clip();
        if (pair) {
            this.spectra.draw(g, box, this, this.width, lane.height, pair, n, c.ramp);
        } else {
            const second = lane.role === 'side' || lane.role === 'right';
            const colours = { body: second ? c.bodySecond : c.body, heart: second ? c.heartSecond : c.heart, fault: c.fault };
            g.fillStyle = c.line;
            g.fillRect(this.left, Math.round(lane.y + lane.height / 2), this.width, 1);
            if (this.framesPerPixel < 1) {
                drawSamples(g, box, this.tiles, this, this.width, lane.height, this.gain, lane.role, colours);
            } else {
                const data = this.data[n];
                gather(this.tiles, this, this.width, lane.role, data);
                drawWave(g, box, data, this.width, lane.height, this.gain, colours);
            }
        }
        g.restore();
    }

    drawTrail(g, trail) {
        const c = this.colours, s = this.scale;
        g.fillStyle = c.band;
        g.fillRect(this.left, trail.y, this.width, trail.height);
        g.fillStyle = c.line;
        const inner = (trail.height / 2 - 2 * s) / 1.15;
        for (const at of [-1, 0, 1])
            g.fillRect(this.left, Math.round(trail.y + trail.height / 2 + at * inner), this.width, 1);
        drawTrail(g, { x: this.left, y: trail.y, scale: s }, this.tiles, this, this.width, trail.height, this.sideGain, c);
    }

    text(g, text, x, y, { colour = this.colours.soft, align = 'left', bold = false, size = 12 } = {}) {
        g.font = `${bold ? '600 ' : ''}${size * this.scale}px ${this.colours.font}`;
        g.textAlign = align;
        g.textBaseline = 'middle';
        g.fillStyle = colour;
        g.fillText(text, x, y);
    }

    drawGutterText(g, text, y) {
        this.text(g, text, this.left - 8 * this.scale, y, { align: 'right' });
    }

    drawScale(g, lane, pair) {
        const s = this.scale, x = this.left - 8 * s;
        this.text(g, roles[lane.role].name, x, lane.y + 10 * s, { align: 'right', bold: true, colour: this.colours.ink, size: 13 });
        if (pair) {
            const highest = this.take.rate / 2;
            for (const hertz of [100, 1000, 10000, 40000].filter(h => h < highest * 0.8)) {
                const y = lane.y + lane.height * (1 - Math.log(hertz / 20) / Math.log(highest / 20));
                if (y > lane.y + 26 * s)
                    this.text(g, hertz < 1000 ? `${hertz} Hz` : `${hertz / 1000} kHz`, x, y, { align: 'right', size: 11 });
                g.fillStyle = this.colours.line;
                g.fillRect(this.left - 5 * s, Math.round(y), 5 * s, 1);
            }
            return;
        }
        const middle = lane.y + lane.height / 2;
        for (const decibels of [-6, -20]) {
            const dy = 10 ** (decibels / 20) * (lane.height / 2);
            const label = decibels - 20 * Math.log10(this.gain);
            for (const y of [middle - dy, middle + dy]) {
                g.fillStyle = this.colours.line;
                g.fillRect(this.left - 5 * s, Math.round(y), 5 * s, 1);
                if (y > lane.y + 24 * s && (decibels === -6 || dy > 14 * s))
                    this.text(g, `${Math.round(label)}`.replace('-', '−'), x, y, { align: 'right', size: 11 });
            }
        }
        this.text(g, 'dBFS', x, middle, { align: 'right', size: 10 });
    }

    drawTrailScale(g, trail) {
        const s = this.scale, x = this.left - 8 * s, inner = (trail.height / 2 - 2 * s) / 1.15, middle = trail.y + trail.height / 2;
        this.text(g, 'left', x, middle - inner, { align: 'right', size: 11 });
        this.text(g, 'from', x, middle, { align: 'right', size: 11, colour: this.colours.ink, bold: true });
        this.text(g, 'right', x, middle + inner, { align: 'right', size: 11 });
    }

    drawRuler(g) {
        const s = this.scale, { rate } = this.take;
        const marks = ruler(this.framesPerPixel, rate, 110 * s);
        g.fillStyle = this.colours.line;
        const minor = marks.step / marks.minor;
        for (let n = Math.ceil(this.start / minor); n * minor <= this.start + this.shown; n++)
            g.fillRect(Math.round(this.xOf(n * minor)), (rulerHeight - 4) * s, 1, 4 * s);
        for (let n = Math.ceil(this.start / marks.step); n * marks.step <= this.start + this.shown; n++) {
            const x = Math.round(this.xOf(n * marks.step));
            g.fillRect(x, (rulerHeight - 10) * s, 1, 10 * s);
            this.text(g, clock(n * marks.step, rate, marks.decimals), x + 4 * s, (rulerHeight / 2 - 1) * s, { size: 11 });
        }
    }

    // Kind by shape, not by colour alone: a square is a fault, a triangle a caution, a ring a note.
    drawFindings(g) {
        const s = this.scale, y = rulerHeight * s, h = findingHeight * s, middle = y + h / 2;
        this.spots = [];
        for (const [n, f] of this.take.findings.entries()) {
            if (f.from === null)
                continue;
            const x = this.xOf(f.from), end = Math.max(this.xOf(f.to), x + 2 * s);
            if (end < this.left - 10 * s || x > this.picture.width + 10 * s)
                continue;
            const chosen = n === this.finding || n === this.hovered;
            g.fillStyle = this.colours[f.severity];
            g.globalAlpha = chosen ? 0.55 : 0.28;
            g.fillRect(x, middle - 5 * s, end - x, 10 * s);
            g.globalAlpha = 1;
            const at = Math.max(x, Math.min(this.left + 7 * s, end));
            this.drawSign(g, f.severity, at, middle, chosen ? 7 * s : 5.5 * s);
            this.spots.push({ n, from: Math.min(x, at - 7 * s), to: Math.max(end, at + 7 * s), at });
        }
    }

    drawSign(g, severity, x, y, r) {
        g.beginPath();
        if (severity === 'fault')
            g.rect(x - r * 0.85, y - r * 0.85, r * 1.7, r * 1.7);
        else if (severity === 'caution')
            g.moveTo(x, y - r), g.lineTo(x + r, y + r * 0.85), g.lineTo(x - r, y + r * 0.85), g.closePath();
        else
            g.arc(x, y, r * 0.9, 0, 7);
        g.fillStyle = severity === 'note' ? this.colours.ground : this.colours[severity];
        g.fill();
        g.lineWidth = 1.5 * this.scale;
        g.strokeStyle = this.colours[severity];
        g.stroke();
    }

    drawMarkers(g, layout) {
        const s = this.scale;
        for (const marker of [...this.take.markers, ...this.own]) {
            const x = Math.round(this.xOf(marker.frame)), end = this.xOf(marker.frame + marker.length);
            if (end < this.left || x > this.picture.width)
                continue;
            if (marker.length > 0) {
                g.fillStyle = this.colours.marker;
                g.fillRect(Math.max(this.left, x), layout.trail.y - 4 * s, end - Math.max(this.left, x), 3 * s);
            }
            if (x < this.left)
                continue;
            g.fillStyle = this.colours.marker;
            for (let y = rulerHeight * s; y < layout.trail.y; y += 6 * s)
                g.fillRect(x, y, Math.max(1, Math.round(s)), 3 * s);
            if (marker.label)
                this.text(g, marker.label, x + 4 * s, layout.lanes[0].y + 10 * s, { colour: this.colours.marker, size: 11, bold: true });
        }
    }

    drawOverview() {
        const g = this.overview.getContext('2d', { alpha: false }), c = this.colours, s = this.scale, h = this.overview.height;
        g.fillStyle = c.ground;
        g.fillRect(0, 0, this.overview.width, h);
        g.fillStyle = c.band;
        g.fillRect(this.left, 0, this.overviewWidth, h);
        const view = { start: 0, framesPerPixel: this.frames / this.overviewWidth };
        gather(this.tiles, view, this.overviewWidth, 'mid', this.overviewData);
        drawWave(g, { x: this.left, y: 0, scale: s }, this.overviewData, this.overviewWidth, h, this.gain, { body: c.body, heart: c.heart, fault: c.fault });
        for (const f of this.take.findings.filter(f => f.from !== null)) {
            g.fillStyle = c[f.severity];
            g.fillRect(this.left + f.from / view.framesPerPixel, h - 4 * s, Math.max(2 * s, (f.to - f.from) / view.framesPerPixel), 4 * s);
        }
        // Outside of what is shown below is veiled.
        const from = this.left + this.start / view.framesPerPixel, to = from + Math.max(3 * s, this.shown / view.framesPerPixel);
        g.fillStyle = c.ground;
        g.globalAlpha = 0.62;
        g.fillRect(this.left, 0, from - this.left, h);
        g.fillRect(to, 0, this.overview.width - to, h);
        g.globalAlpha = 1;
        g.strokeStyle = c.accent;
        g.lineWidth = 1.5 * s;
        g.strokeRect(from, 1, to - from, h - 2);
        if (this.playFrame !== null) {
            g.fillStyle = c.accent;
            g.fillRect(this.left + this.playFrame / view.framesPerPixel, 0, Math.max(1, s), h);
        }
        g.fillStyle = c.ground;
        g.fillRect(0, 0, this.left - 1, h);
        this.text(g, 'whole', this.left - 8 * s, h / 2, { align: 'right' });
    }

    drawOverlay() {
        const g = this.overlay.getContext('2d'), c = this.colours, s = this.scale, height = this.overlay.height;
        g.clearRect(0, 0, this.overlay.width, height);
        g.save();
        g.beginPath();
        g.rect(this.left, 0, this.width, height);
        g.clip();
        if (this.selection) {
            const from = this.xOf(this.selection.from), to = this.xOf(this.selection.to);
            g.fillStyle = c.select;
            g.globalAlpha = 0.24;
            g.fillRect(from, rulerHeight * s, to - from, height);
            g.globalAlpha = 1;
            for (const x of [from, to]) {
                g.fillRect(x - s, 0, 2 * s, height);
                g.fillRect(x - (x === from ? 0 : 7 * s), (rulerHeight - 8) * s, 7 * s, 8 * s);
            }
        }
        const cursor = this.xOf(this.cursor);
        g.fillStyle = c.ink;
        for (let y = 0; y < height; y += 8 * s)
            g.fillRect(cursor, y, Math.max(1, s), 4 * s);
        if (this.playFrame !== null) {
            const x = this.xOf(this.playFrame);
            g.fillStyle = c.accent;
            g.fillRect(x - s, 0, 2 * s, height);
            g.beginPath();
            g.moveTo(x - 6 * s, 0), g.lineTo(x + 6 * s, 0), g.lineTo(x, 8 * s), g.closePath();
            g.fill();
        }
        g.restore();
    }

    // ---- telling

    tellProgress(fraction) {
        const line = this.part('progress');
        if (!line)
            return;
        line.hidden = fraction >= 1;
        line.textContent = `Drawing the take for the first time: ${Math.round(fraction * 100)} %`;
    }

    tellView() {
        const { rate } = this.take;
        const near = this.part('where');
        if (near)
            near.textContent = `${clock(this.cursor, rate)} · frame ${this.cursor.toLocaleString('en')} · ${span(this.shown, rate)} shown`;
    }

    tellSelection() {
        const line = this.part('chosen'), { rate } = this.take;
        if (line) {
            line.textContent = this.selection
                ? `${clock(this.selection.from, rate)} to ${clock(this.selection.to, rate)}, ${span(this.selection.to - this.selection.from, rate)}`
                : 'nothing chosen: the whole take';
        }
        this.say('selection', this.selection);
    }

    say(what, detail) {
        this.dispatchEvent(new CustomEvent(what, { detail }));
    }

    // ---- hands

    listen() {
        const o = this.overlay;
        this.pointers = new Map();
        o.addEventListener('pointerdown', e => this.down(e));
        o.addEventListener('pointermove', e => this.move(e));
        o.addEventListener('pointerup', e => this.up(e));
        o.addEventListener('pointercancel', e => this.up(e));
        o.addEventListener('pointerleave', () => this.hover(-1));
        o.addEventListener('dblclick', () => this.selection && this.look(this.selection.from, this.selection.to));
        o.addEventListener('wheel', e => this.wheel(e), { passive: false });
        this.overview.addEventListener('pointerdown', e => { this.overview.setPointerCapture(e.pointerId); this.jump(e); });
        this.overview.addEventListener('pointermove', e => this.overview.hasPointerCapture(e.pointerId) && this.jump(e));
        this.part('stage').addEventListener('keydown', e => this.key(e));
    }

    xy(e, canvas = this.overlay) {
        const box = canvas.getBoundingClientRect();
        return { x: (e.clientX - box.left) * this.scale, y: (e.clientY - box.top) * this.scale };
    }

    spotAt({ x, y }) {
        const s = this.scale;
        if (y < rulerHeight * s || y > (rulerHeight + findingHeight) * s)
            return -1;
        // Of several the one whose sign is nearest.
        const near = (this.spots ?? []).filter(p => x >= p.from && x <= p.to).sort((a, b) => Math.abs(a.at - x) - Math.abs(b.at - x));
        return near.length > 0 ? near[0].n : -1;
    }

    edgeAt({ x, y }) {
        if (!this.selection || y < 0)
            return null;
        const reach = 6 * this.scale;
        if (Math.abs(this.xOf(this.selection.from) - x) < reach)
            return 'from';
        return Math.abs(this.xOf(this.selection.to) - x) < reach ? 'to' : null;
    }

    down(e) {
        this.overlay.setPointerCapture(e.pointerId);
        const at = this.xy(e);
        this.pointers.set(e.pointerId, at);
        this.moved = false;
        if (this.pointers.size === 2) {
            this.drag = { kind: 'pinch', ...this.pinch() };
            return;
        }
        const spot = this.spotAt(at), edge = this.edgeAt(at);
        if (spot >= 0)
            this.drag = { kind: 'finding', spot };
        else if (edge)
            this.drag = { kind: 'select', anchor: edge === 'from' ? this.selection.to : this.selection.from };
        else if (e.button === 1 || e.shiftKey || at.y < rulerHeight * this.scale)
            this.drag = { kind: 'pan', x: at.x, start: this.start };
        else
            this.drag = { kind: 'select', anchor: this.frameAt(at.x), x: at.x };
        e.preventDefault();
        this.part('stage').focus({ preventScroll: true });
    }

    pinch() {
        const [a, b] = [...this.pointers.values()];
        return { apart: Math.max(8, Math.abs(a.x - b.x)), frame: this.start + ((a.x + b.x) / 2 - this.left) * this.framesPerPixel, per: this.framesPerPixel };
    }

    move(e) {
        const at = this.xy(e);
        if (!this.pointers.has(e.pointerId)) {
            this.hover(this.spotAt(at));
            this.overlay.style.cursor = this.hovered >= 0 ? 'pointer' : this.edgeAt(at) ? 'ew-resize' : at.y < rulerHeight * this.scale ? 'grab' : 'text';
            return;
        }
        this.pointers.set(e.pointerId, at);
        const d = this.drag;
        if (d.kind === 'pinch' && this.pointers.size === 2) {
            const now = this.pinch(), [a, b] = [...this.pointers.values()];
            this.framesPerPixel = d.per * d.apart / now.apart;
            this.clamp();
            this.start = d.frame - ((a.x + b.x) / 2 - this.left) * this.framesPerPixel;
            this.clamp();
            this.wake();
        } else if (d.kind === 'pan') {
            this.moved ||= Math.abs(at.x - d.x) > 3 * this.scale;
            this.start = d.start - (at.x - d.x) * this.framesPerPixel;
            this.clamp();
            this.wake();
            this.tellView();
        } else if (d.kind === 'select' && (this.moved || d.x === undefined || Math.abs(at.x - d.x) > 3 * this.scale)) {
            this.moved = true;
            this.select(d.anchor, this.frameAt(at.x));
        }
    }

    up(e) {
        const at = this.pointers.get(e.pointerId), d = this.drag;
        this.pointers.delete(e.pointerId);
        if (!at || !d || this.pointers.size > 0)
            return;
        this.drag = null;
        if (d.kind === 'finding')
            this.pick(d.spot, false);
        else if (!this.moved && (d.kind === 'select' || d.kind === 'pan'))
            this.setCursor(this.frameAt(at.x));
    }

    hover(n) {
        if (n === this.hovered)
            return;
        this.hovered = n;
        this.wake();
        const shown = n >= 0 ? n : this.finding;
        this.say('hover', shown >= 0 ? { index: shown, finding: this.take.findings[shown] } : null);
    }

    wheel(e) {
        e.preventDefault();
        const unit = e.deltaMode === 1 ? 16 : 1;
        if (e.shiftKey || Math.abs(e.deltaX) > Math.abs(e.deltaY))
            this.pan((e.deltaX || e.deltaY) * unit * this.scale * this.framesPerPixel);
        else
            this.zoom(Math.exp(-e.deltaY * unit / 300), this.frameAt(this.xy(e).x));
    }

    jump(e) {
        const frame = (this.xy(e, this.overview).x - this.left) / this.overviewWidth * this.frames;
        this.start = frame - this.shown / 2;
        this.clamp();
        this.wake();
        this.tellView();
    }

    key(e) {
        if (e.ctrlKey || e.metaKey || e.altKey)
            return;
        const step = this.framesPerPixel < 1 ? 1 : Math.max(1, Math.round(this.framesPerPixel * 10 * this.scale));
        const move = (by, extend) => {
            const from = this.cursor;
            this.setCursor(this.cursor + by);
            if (extend) {
                const anchor = !this.selection ? from : Math.abs(this.selection.from - from) <= Math.abs(this.selection.to - from) ? this.selection.to : this.selection.from;
                this.select(anchor, this.cursor);
            }
            this.reveal(this.cursor);
        };
        const actions = {
            ArrowLeft: () => move(-step, e.shiftKey),
            ArrowRight: () => move(step, e.shiftKey),
            Home: () => move(-this.frames, e.shiftKey),
            End: () => move(this.frames, e.shiftKey),
            PageUp: () => this.pan(-this.shown * 0.8),
            PageDown: () => this.pan(this.shown * 0.8),
            ArrowUp: () => this.zoom(1.6, this.near()),
            ArrowDown: () => this.zoom(1 / 1.6, this.near()),
            '+': () => this.zoom(1.6, this.near()),
            '-': () => this.zoom(1 / 1.6, this.near()),
            '0': () => this.whole(),
            ',': () => this.select(this.cursor, this.selection && this.selection.to > this.cursor ? this.selection.to : this.frames),
            '.': () => this.select(this.selection && this.selection.from < this.cursor ? this.selection.from : 0, this.cursor),
            z: () => this.selection && this.look(this.selection.from, this.selection.to),
            f: () => this.step(1),
            F: () => this.step(-1),
            Escape: () => this.select(0, 0),
            ' ': () => this.say('play'),
        };
        const action = actions[e.key];
        if (!action)
            return;
        e.preventDefault();
        e.stopPropagation();
        action();
    }

    /** The frame that zooming by key holds in its place: where one is, if it is in sight. */
    near() {
        return this.cursor >= this.start && this.cursor <= this.start + this.shown ? this.cursor : this.start + this.shown / 2;
    }

    close() {
        cancelAnimationFrame(this.due);
        this.endWatch();
        this.sizes.disconnect();
    }
}

export { levelFor };
