// What a raw mid and side tells while it comes in; pure, so that the audio thread and tests use the same.

/** One second of a channel at full scale is no accident: so many samples in a row count as clipped. */
const clippedRun = 3;

/** Gathers a tenth of a second of two channels and sums it up. */
export class Watch {
    constructor(rate) {
        this.every = Math.round(rate / 10);
        // One-pole low-pass at 80 Hz: where wind and handling live.
        this.low = 1 - Math.exp(-2 * Math.PI * 80 / rate);
        this.channels = [0, 1].map(() => ({ low: 0, run: 0 }));
        this.clear();
    }

    clear() {
        this.frames = 0;
        this.same = 0;
        this.cross = 0;
        this.lowCross = 0;
        for (const c of this.channels)
            Object.assign(c, { power: 0, lowPower: 0, peak: 0, clipped: 0, moving: 0 });
    }

    add(first, second) {
        this.one(this.channels[0], first);
        this.one(this.channels[1], second);
        this.cross += first * second;
        this.lowCross += this.channels[0].low * this.channels[1].low;
        if (first === second)
            this.same++;
        this.frames++;
    }

    one(c, sample) {
        c.power += sample * sample;
        c.low += this.low * (sample - c.low);
        c.lowPower += c.low * c.low;
        const size = Math.abs(sample);
        if (size > c.peak)
            c.peak = size;
        if (sample !== 0)
            c.moving++;
        c.run = size >= 0.999 ? c.run + 1 : 0;
        if (c.run >= clippedRun)
            c.clipped++;
    }

    get isFull() {
        return this.frames >= this.every;
    }

    take() {
        const sum = c => ({ power: c.power / this.frames, low: c.lowPower / this.frames, peak: c.peak, clipped: c.clipped, moving: c.moving / this.frames });
        const report = { type: 'watch', frames: this.frames, first: sum(this.channels[0]), second: sum(this.channels[1]), cross: this.cross / this.frames, lowCross: this.lowCross / this.frames, same: this.same / this.frames };
        this.clear();
        return report;
    }
}

const decibels = power => power > 1e-14 ? 10 * Math.log10(power) : -Infinity;

/**
 * Judges the last seconds. reports: of Watch, latest last, as mid (first) and side (second).
 * Returns [{ kind, severity, text, remedy }], worst first; thresholds are common practice, no source.
 */
export function judge(reports) {
    const recent = reports.slice(-30), loud = recent.filter(r => r.first.power > 1e-9 || r.second.power > 1e-9);
    const found = [];
    const say = (kind, severity, text, remedy) => found.push({ kind, severity, text, remedy });
    if (loud.length < 10) {
        if (recent.length >= 20)
            say('silent', 'fault', 'Nothing comes in.', 'Look at the cable, at the recorder’s USB setting and at the chosen input.');
        return found;
    }
    const mean = pick => loud.reduce((sum, r) => sum + pick(r), 0) / loud.length;
    const mid = mean(r => r.first.power), side = mean(r => r.second.power), same = mean(r => r.same);
    const clippedMid = recent.reduce((n, r) => n + r.first.clipped, 0), clippedSide = recent.reduce((n, r) => n + r.second.clipped, 0);
    if (same > 0.999)
        say('one-channel', 'fault', 'Both channels are the same, sample for sample: the input gives one channel only, or the browser or system mixed it.', 'Choose the recorder’s own two-channel input, turn off “enhancements” of the system, and set the recorder to send both channels raw.');
    else if (mean(r => r.second.moving) < 0.01)
        say('side-dead', 'fault', 'The side channel is digital silence.', 'Look at the input, the cable and the phantom or battery power of the side microphone.');
    else if (mean(r => r.first.moving) < 0.01)
        say('mid-dead', 'fault', 'The mid channel is digital silence.', 'Look at the input, the cable and the power of the mid microphone.');
    else if (decibels(side) < decibels(mid) - 40)
        say('side-dead', 'fault', `The side is ${Math.round(decibels(mid) - decibels(side))} dB below the mid: next to nothing.`, 'Raise its gain, or look at its cable and power.');
    else if (decibels(side) > decibels(mid) + 3 && !found.length)
        say('roles-swapped', 'caution', `The side is ${Math.round(decibels(side) - decibels(mid))} dB above the mid: the two may be exchanged.`, 'Make a sound straight ahead; if the side is still louder, exchange the channels here.');
    for (const [name, count] of [['mid', clippedMid], ['side', clippedSide]])
        if (count > 0)
            say('clipped', 'fault', `The ${name} is clipped.`, 'Turn its input gain down.');
    const lowShare = mean(r => (r.first.low + r.second.low)) / (mid + side);
    const lowAgree = mean(r => r.lowCross) / Math.sqrt(mean(r => r.first.low) * mean(r => r.second.low) || 1);
    // Wind shakes each capsule by itself; a low sound moves both alike.
    if (lowShare > 0.5 && Math.abs(lowAgree) < 0.5 && decibels(mid + side) > -50)
        say('wind', 'caution', `${Math.round(lowShare * 100)} % of the sound lies below 80 Hz and differs between the capsules: wind or handling.`, 'Fit the wind shield, turn your back to the wind, let the stand carry the rig.');
    const agree = mean(r => r.cross) / Math.sqrt(mid * side || 1);
    if (same <= 0.999 && Math.abs(agree) > 0.98 && side > 1e-12)
        say('side-like-mid', 'fault', `Side and mid are ${agree < 0 ? 'opposed copies of' : 'copies of'} each other (correlation ${agree.toFixed(2)}): this is no side.`, 'Look whether both inputs carry the same microphone, or whether the recorder sends left and right already decoded.');
    const order = { fault: 0, caution: 1, note: 2 };
    return found.sort((a, b) => order[a.severity] - order[b.severity]);
}

/** What a sound from a known direction tells. from: 'ahead', 'left' or 'right'; powers of the moment with the sound less those before it. */
export function judgePlace(from, mid, side, cross) {
    const ratio = decibels(side) - decibels(mid), agree = cross / Math.sqrt(mid * side || 1);
    if (from === 'ahead') {
        if (ratio > 0)
            return { good: false, fix: 'exchange', text: `Straight ahead the side is ${Math.round(ratio)} dB louder than the mid: the channels are exchanged.` };
        return ratio < -10
            ? { good: true, text: `The mid hears it, the side ${Math.round(-ratio)} dB less: the side looks straight across.` }
            : { good: false, text: `The side is only ${Math.max(0, Math.round(-ratio))} dB below the mid: turn the rig until it is quietest, or stand straight in front.` };
    }
    if (Math.abs(agree) < 0.3)
        return { good: false, text: 'Mid and side do not agree on this sound: come nearer, and make it short and sharp.' };
    const heardLeft = agree > 0;
    return heardLeft === (from === 'left')
        ? { good: true, text: `Heard ${from}: the side’s polarity is right.` }
        : { good: false, fix: 'turn', text: `Made on the ${from}, heard on the ${heardLeft ? 'left' : 'right'}: the side is turned over.` };
}
