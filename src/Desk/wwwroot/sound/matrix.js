// What is heard, as four numbers: left = a·mid + b·side, right = c·mid + d·side.
// The same decode as the renderer's: left = mid + g·side, right = mid − g·side, mid at unity.

/** The lowest side level of a slider; there and below the side is silent. */
export const silentBelow = -60;

/** Amplitude ratio of a gain in decibels; −Infinity and anything at or below the end of the slider gives 0. */
export function ratio(decibels) {
    return decibels > silentBelow ? 10 ** (decibels / 20) : 0;
}

/** What one listens to. */
export const views = ['stereo', 'mono', 'mid', 'side'];

/**
 * The four coefficients [a, b, c, d] of a setting.
 * side: side level in decibels; view: one of views; swap: left and right exchanged.
 * 'mono' is the fold (left + right) / 2; with this matrix it is the mid, whatever the side level.
 */
export function coefficients({ side = 0, view = 'stereo', swap = false } = {}) {
    const g = ratio(side);
    switch (view) {
        case 'mono':
        case 'mid':
            return [1, 0, 1, 0];
        case 'side':
            return [0, 1, 0, 1];
        default:
            return swap ? [1, -g, 1, g] : [1, g, 1, -g];
    }
}

/** Eight coefficients for two pairs of which one is heard: the raw one, or the treated one. */
export function ofTwo(matrix, treated) {
    return treated ? [0, 0, 0, 0, ...matrix] : [...matrix, 0, 0, 0, 0];
}

/** The power of left and right together, from the powers of mid and side: no cross term remains in any of our settings. */
export function power(matrix, powers) {
    const [a, b, c, d, e = 0, f = 0, g = 0, h = 0] = matrix;
    const { mid, side } = powers.treated ?? { mid: 0, side: 0 };
    return (a * a + c * c) * powers.mid + (b * b + d * d) * powers.side + (e * e + g * g) * mid + (f * f + h * h) * side;
}

/** Amplitude ratios [first, second] that make two settings equally loud by turning the louder one down; never up. */
export function equalLoudness(first, second, powers) {
    const p = power(first, powers), q = power(second, powers);
    if (!(p > 0) || !(q > 0))
        return [1, 1];
    return p > q ? [Math.sqrt(q / p), 1] : [1, Math.sqrt(p / q)];
}
