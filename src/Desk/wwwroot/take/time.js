// Frames as people read them.

/** '1:02:03.250'; as many decimals as the frames in view can tell apart. */
export function clock(frame, rate, decimals = 3) {
    const sign = frame < 0 ? '-' : '';
    const scale = 10 ** decimals;
    const units = Math.round(Math.abs(frame) / rate * scale);
    const seconds = Math.floor(units / scale), part = String(units % scale).padStart(decimals, '0');
    const h = Math.floor(seconds / 3600), m = Math.floor(seconds / 60) % 60, s = seconds % 60;
    const two = n => String(n).padStart(2, '0');
    return `${sign}${h > 0 ? `${h}:${two(m)}` : m}:${two(s)}${decimals > 0 ? `.${part}` : ''}`;
}

/** '12 ms', '3.2 s', '1 min 5 s': a length. */
export function span(frames, rate) {
    const seconds = frames / rate;
    if (frames < rate / 1000)
        return `${Math.round(frames)} ${Math.round(frames) === 1 ? 'frame' : 'frames'}`;
    if (seconds < 1)
        return `${(seconds * 1000).toPrecision(3).replace(/\.0+$/, '')} ms`;
    if (seconds < 60)
        return `${seconds.toFixed(seconds < 10 ? 2 : 1)} s`;
    return seconds < 3600
        ? `${Math.floor(seconds / 60)} min ${Math.floor(seconds % 60)} s`
        : `${Math.floor(seconds / 3600)} h ${Math.floor(seconds / 60) % 60} min`;
}

const seconds = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200];

/** The distance of the marks of a ruler in frames, and the decimals they need; at least so many pixels apart. */
export function ruler(framesPerPixel, rate, apart = 96) {
    const least = framesPerPixel * apart;
    // Below a millisecond the marks stand on whole frames.
    for (const step of [1, 2, 5, 10, 20, 50])
        if (step >= least)
            return { step, decimals: 6, minor: step >= 5 ? 5 : step };
    for (let decimals = 4; decimals >= 1; decimals--)
        for (const step of [1, 2, 5])
            if (step * rate / 10 ** decimals >= least)
                return { step: step * rate / 10 ** decimals, decimals, minor: step === 1 ? 5 : step };
    const step = seconds.find(s => s * rate >= least) ?? 14400;
    return { step: step * rate, decimals: 0, minor: step % 60 === 0 && step > 60 ? 4 : 5 };
}
