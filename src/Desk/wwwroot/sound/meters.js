// Meters of what is heard, drawn by hand: level, agreement of left and right, loss in mono, left against right, spectrum.
import { coloursOf, whenLightChanges } from '/take/colours.js';

const decibels = power => power > 1e-13 ? 10 * Math.log10(power) : -Infinity;
const words = (value, unit = 'dB', digits = 1) => Number.isFinite(value) ? `${value.toFixed(digits).replace('-', '−')} ${unit}` : 'silent';

/** Ballistics: up at once, down by so many decibels a second. */
class Fall {
    constructor(perSecond) {
        this.perSecond = perSecond;
        this.value = -Infinity;
        this.at = 0;
    }

    push(value, now) {
        const fallen = this.value - this.perSecond * (now - this.at) / 1000;
        this.value = Math.max(value, fallen < -120 ? -Infinity : fallen);
        this.at = now;
        return this.value;
    }
}

export class Meters {
    /** root: holds the canvases; spectra: () => ({ mid, side, rate }) of two analysers, or null. */
    constructor(root, spectra) {
        this.root = root;
        this.spectra = spectra;
        this.canvases = Object.fromEntries([...root.querySelectorAll('canvas[data-meter]')].map(c => [c.dataset.meter, c]));
        this.outputs = Object.fromEntries([...root.querySelectorAll('output[data-meter]')].map(o => [o.dataset.meter, o]));
        this.colours = coloursOf(root);
        this.endWatch = whenLightChanges(() => { this.colours = coloursOf(root); this.blank(); });
        this.sizes = new ResizeObserver(() => this.resize());
        for (const canvas of Object.values(this.canvases))
            this.sizes.observe(canvas);
        this.rms = [new Fall(40), new Fall(40)];
        this.peak = [new Fall(12), new Fall(12)];
        this.trueMax = -Infinity;
        this.ll = this.rr = this.lr = 0;
        this.points = [];
        this.spoken = 0;
        this.resize();
    }

    resize() {
        this.scale = Math.min(3, devicePixelRatio || 1);
        for (const canvas of Object.values(this.canvases)) {
            canvas.width = Math.max(1, Math.round(canvas.clientWidth * this.scale));
            canvas.height = Math.max(1, Math.round(canvas.clientHeight * this.scale));
        }
        this.blank();
    }

    /** Forgets the highest true peak: a new stretch is listened to. */
    reset() {
        this.trueMax = -Infinity;
    }

    /** A report of the audio thread. */
    push(report) {
        const now = performance.now();
        this.rms[0].push(decibels(report.ll), now);
        this.rms[1].push(decibels(report.rr), now);
        this.peak[0].push(decibels(report.leftPeak ** 2), now);
        this.peak[1].push(decibels(report.rightPeak ** 2), now);
        this.trueMax = Math.max(this.trueMax, decibels(Math.max(report.leftTruePeak, report.rightTruePeak) ** 2));
        // Agreement and loss over about a third of a second, so that they can be read.
        const keep = Math.exp(-report.frames / (report.rate ?? 48000) / 0.3);
        this.ll = this.ll * keep + report.ll * (1 - keep);
        this.rr = this.rr * keep + report.rr * (1 - keep);
        this.lr = this.lr * keep + report.lr * (1 - keep);
        this.points.push(report.points);
        if (this.points.length > 8)
            this.points.shift();
        this.wake();
    }

    blank() {
        this.wake();
    }

    wake() {
        this.due ??= requestAnimationFrame(() => {
            this.due = null;
            this.draw();
        });
    }

    /** −1 … 1, or NaN while one of the two is silent. */
    get correlation() {
        const product = this.ll * this.rr;
        return product > 1e-20 ? Math.max(-1, Math.min(1, this.lr / Math.sqrt(product))) : NaN;
    }

    /** The level of (left + right)/2 on both sides against that of left and right, in decibels: 0 when they are the same, −3 when they are strangers. */
    get fold() {
        const both = this.ll + this.rr;
        return both > 1e-12 ? decibels(Math.max(0, (both + 2 * this.lr) / (2 * both))) : NaN;
    }

    draw() {
        this.drawLevel();
        this.drawCorrelation();
        this.drawFold();
        this.drawVector();
        this.drawSpectrum();
        if (performance.now() - this.spoken > 250) {
            this.spoken = performance.now();
            this.speak();
        }
    }

    speak() {
        const level = Math.max(this.rms[0].value, this.rms[1].value);
        const say = (name, text) => { if (this.outputs[name] && this.outputs[name].value !== text) this.outputs[name].value = text; };
        say('level-word', Number.isFinite(level) ? `true peak ${words(this.trueMax, 'dBTP')}${this.trueMax > 0 ? ', over' : ''}` : 'silent');
        const r = this.correlation;
        say('correlation-word', Number.isNaN(r) ? '' : `${r.toFixed(2).replace('-', '−')}${r < -0.2 ? ', opposed' : r > 0.98 ? ', mono' : ''}`);
        const f = this.fold;
        say('fold-word', Number.isNaN(f) ? '' : f === -Infinity ? 'everything' : words(f));
    }

    begin(name) {
        const canvas = this.canvases[name];
        if (!canvas)
            return null;
        const g = canvas.getContext('2d'), w = canvas.width, h = canvas.height;
        g.clearRect(0, 0, w, h);
        return { g, w, h, s: this.scale, c: this.colours };
    }

    text({ g, s, c }, text, x, y, align = 'center', colour = c.soft, size = 10.5) {
        g.font = `${size * s}px ${c.font}`;
        g.textAlign = align;
        g.textBaseline = 'middle';
        g.fillStyle = colour;
        g.fillText(text, x, y);
    }

    drawLevel() {
        const m = this.begin('level');
        if (!m)
            return;
        const { g, w, h, s, c } = m, left = 18 * s, right = w - 6 * s, bar = 13 * s;
        const at = value => left + (Math.max(-60, Math.min(3, value)) + 60) / 63 * (right - left);
        for (const [n, name] of ['L', 'R'].entries()) {
            const y = 4 * s + n * (bar + 5 * s);
            this.text(m, name, 6 * s, y + bar / 2, 'center', c.ink, 11);
            g.fillStyle = c.band;
            g.fillRect(left, y, right - left, bar);
            g.fillStyle = c.heart;
            g.fillRect(left, y, Math.max(0, at(this.rms[n].value) - left), bar);
            const peak = at(this.peak[n].value);
            g.fillStyle = this.peak[n].value > -0.1 ? c.fault : c.ink;
            if (Number.isFinite(this.peak[n].value))
                g.fillRect(peak - s, y - s, 2.5 * s, bar + 2 * s);
        }
        for (const mark of [-60, -40, -20, -10, 0]) {
            const x = at(mark);
            g.fillStyle = c.line;
            g.fillRect(x, 4 * s, Math.max(1, s / 2), 2 * bar + 5 * s);
            this.text(m, `${mark}`.replace('-', '−'), x, h - 8 * s, mark === -60 ? 'left' : mark === 0 ? 'right' : 'center');
        }
    }

    drawCorrelation() {
        const m = this.begin('correlation');
        if (!m)
            return;
        const { g, w, h, s, c } = m, left = 8 * s, right = w - 8 * s, y = 6 * s, bar = 12 * s;
        const at = r => left + (r + 1) / 2 * (right - left);
        g.fillStyle = c.band;
        g.fillRect(left, y, right - left, bar);
        g.fillStyle = c.fault;
        g.globalAlpha = 0.16;
        g.fillRect(left, y, at(0) - left, bar);
        g.globalAlpha = 1;
        for (const [r, word] of [[-1, 'opposed'], [0, 'strangers'], [1, 'same']]) {
            g.fillStyle = c.line;
            g.fillRect(at(r) - s / 2, y, s, bar + 4 * s);
            this.text(m, word, at(r), h - 8 * s, r < 0 ? 'left' : r > 0 ? 'right' : 'center');
        }
        const r = this.correlation;
        if (Number.isNaN(r))
            return;
        g.fillStyle = r < 0 ? c.fault : c.ink;
        g.beginPath();
        g.moveTo(at(r), y - 4 * s), g.lineTo(at(r) + 6 * s, y + bar / 2), g.lineTo(at(r), y + bar + 4 * s), g.lineTo(at(r) - 6 * s, y + bar / 2);
        g.closePath();
        g.fill();
    }

    drawFold() {
        const m = this.begin('fold');
        if (!m)
            return;
        const { g, w, h, s, c } = m, left = 8 * s, right = w - 8 * s, y = 6 * s, bar = 12 * s;
        // From nothing lost at the left to 12 dB lost at the right.
        const at = loss => left + Math.max(0, Math.min(12, loss)) / 12 * (right - left);
        g.fillStyle = c.band;
        g.fillRect(left, y, right - left, bar);
        const loss = -this.fold;
        if (!Number.isNaN(loss)) {
            g.fillStyle = loss > 6 ? c.fault : c.heartSecond;
            g.fillRect(left, y, at(loss) - left, bar);
        }
        for (const mark of [0, 3, 6, 12]) {
            g.fillStyle = c.line;
            g.fillRect(at(mark) - s / 2, y, s, bar + 4 * s);
            this.text(m, mark === 0 ? '0' : `−${mark} dB`, at(mark), h - 8 * s, mark === 0 ? 'left' : mark === 12 ? 'right' : 'center');
        }
    }

    // Mid upwards, side across: a sound from the left leans to the left.
    drawVector() {
        const m = this.begin('vector');
        if (!m)
            return;
        const { g, w, h, s, c } = m, x = w / 2, y = h - 18 * s, r = Math.max(1, Math.min(w / 2 - 28 * s, h - 34 * s));
        g.fillStyle = c.band;
        g.beginPath();
        g.arc(x, y, r, Math.PI, 0);
        g.closePath();
        g.fill();
        g.strokeStyle = c.line;
        g.lineWidth = s;
        for (const angle of [0.25, 0.5, 0.75]) {
            g.beginPath();
            g.moveTo(x, y);
            g.lineTo(x - r * Math.cos(angle * Math.PI), y - r * Math.sin(angle * Math.PI));
            g.stroke();
        }
        const loudest = this.points.reduce((most, p) => p.reduce((a, v) => Math.max(a, Math.abs(v)), most), 1e-4);
        this.zoom = Math.max(loudest * 1.1, (this.zoom ?? 1) * 0.94);
        g.fillStyle = c.trail;
        for (const [age, points] of this.points.entries()) {
            g.globalAlpha = 0.08 + 0.5 * (age + 1) / this.points.length;
            for (let n = 0; n < points.length; n += 2) {
                const mid = (points[n] + points[n + 1]) / 2, side = (points[n] - points[n + 1]) / 2;
                // Turned over where the mid is negative: a swing to both sides of zero is one direction.
                const sign = mid < 0 ? -1 : 1, k = 1.3 * r / this.zoom;
                const px = -sign * side * k, py = sign * mid * k, far = Math.hypot(px, py);
                const fit = far > r ? r / far : 1;
                g.fillRect(x + px * fit - s * 0.7, y - py * fit - s * 0.7, 1.4 * s, 1.4 * s);
            }
        }
        g.globalAlpha = 1;
        const place = angle => [x - (r + 12 * s) * Math.cos(angle * Math.PI), y - (r + 9 * s) * Math.sin(angle * Math.PI)];
        this.text(m, 'left', ...place(0.25), 'right', c.ink);
        this.text(m, 'centre', ...place(0.5), 'center', c.ink);
        this.text(m, 'right', ...place(0.75), 'left', c.ink);
        this.text(m, 'opposed', x - r, y + 10 * s, 'left');
        this.text(m, 'opposed', x + r, y + 10 * s, 'right');
    }

    drawSpectrum() {
        const m = this.begin('spectrum');
        if (!m)
            return;
        const { g, w, h, s, c } = m, left = 34 * s, right = w - 6 * s, top = 4 * s, bottom = h - 18 * s;
        const source = this.spectra();
        const highest = Math.min(96000, (source?.rate ?? 48000) / 2);
        const x = hertz => left + Math.log(hertz / 20) / Math.log(highest / 20) * (right - left);
        const y = value => top + (-Math.max(-120, Math.min(0, value))) / 120 * (bottom - top);
        g.fillStyle = c.band;
        g.fillRect(left, top, right - left, bottom - top);
        for (const value of [-20, -60, -100]) {
            g.fillStyle = c.line;
            g.fillRect(left, Math.round(y(value)), right - left, 1);
            this.text(m, `${value}`.replace('-', '−'), left - 5 * s, y(value), 'right');
        }
        this.text(m, 'dB', left - 5 * s, top + 5 * s, 'right');
        for (const hertz of [20, 100, 1000, 10000, 20000, 40000, 80000].filter(f => f < highest * 0.92)) {
            g.fillStyle = c.line;
            g.fillRect(Math.round(x(hertz)), top, 1, bottom - top);
            if (hertz !== 20000 || w > 360 * s)
                this.text(m, hertz < 1000 ? `${hertz} Hz` : `${hertz / 1000} kHz`, x(hertz), h - 8 * s, hertz === 20 ? 'left' : 'center');
        }
        if (!source)
            return;
        for (const [analyser, colour, dashed] of [[source.side, c.heartSecond, true], [source.mid, c.heart, false]]) {
            this.bins ??= new Float32Array(analyser.frequencyBinCount);
            analyser.getFloatFrequencyData(this.bins);
            this.curve(g, this.bins, source.rate, x, y, left, right, colour, dashed, s);
        }
    }

    // The loudest of the bins a pixel covers, or a straight line between bins that lie farther apart.
    curve(g, bins, rate, x, y, left, right, colour, dashed, s) {
        const width = rate / 2 / bins.length;
        g.strokeStyle = colour;
        g.lineWidth = 1.6 * s;
        g.setLineDash(dashed ? [5 * s, 3 * s] : []);
        g.beginPath();
        let column = -1, most = -Infinity;
        for (let n = 1; n < bins.length; n++) {
            const at = Math.floor(x(n * width));
            if (at > right)
                break;
            if (at !== column && column >= left)
                g.lineTo(column, y(most));
            if (at !== column)
                (column = at, most = -Infinity);
            most = Math.max(most, bins[n]);
        }
        g.stroke();
        g.setLineDash([]);
    }

    close() {
        cancelAnimationFrame(this.due);
        this.endWatch();
        this.sizes.disconnect();
    }
}
