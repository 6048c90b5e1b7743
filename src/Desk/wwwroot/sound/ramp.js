/** Four coefficients that move to new values along a straight line, so that no change is heard as a click. */
export class Ramp {
    constructor(values, frames) {
        this.now = Float64Array.from(values);
        this.target = Float64Array.from(values);
        this.step = new Float64Array(values.length);
        this.frames = Math.max(1, Math.round(frames));
        this.left = 0;
    }

    /** Moves to these values from wherever it is. */
    to(values) {
        this.target.set(values);
        this.left = this.frames;
        for (let i = 0; i < this.now.length; i++)
            this.step[i] = (this.target[i] - this.now[i]) / this.frames;
    }

    /** One frame on. */
    advance() {
        if (this.left === 0)
            return;
        if (--this.left === 0) {
            this.now.set(this.target);
            return;
        }
        for (let i = 0; i < this.now.length; i++)
            this.now[i] += this.step[i];
    }
}

/** A gain from 0 to 1 that opens and closes within some milliseconds. */
export class Gate {
    constructor(frames, open = false) {
        this.step = 1 / Math.max(1, Math.round(frames));
        this.value = open ? 1 : 0;
        this.open = open;
    }

    get isShut() {
        return !this.open && this.value === 0;
    }

    next() {
        this.value = this.open ? Math.min(1, this.value + this.step) : Math.max(0, this.value - this.step);
        return this.value;
    }
}
