// The colours of the pictures, from the style sheet, read again when the light changes.
import { rampOf } from './lanes.js';

const names = ['ground', 'band', 'line', 'ink', 'soft', 'body', 'heart', 'body-second', 'heart-second', 'accent', 'select', 'note', 'caution', 'fault', 'trail', 'marker', 'focus'];

function rgb(text) {
    const g = new OffscreenCanvas(1, 1).getContext('2d');
    g.fillStyle = text;
    g.fillRect(0, 0, 1, 1);
    return [...g.getImageData(0, 0, 1, 1).data.slice(0, 3)];
}

/** { ground, ink, …, ramp } as the style sheet of this moment has them. */
export function coloursOf(element) {
    const style = getComputedStyle(element);
    const colours = Object.fromEntries(names.map(name => [name.replace(/-(.)/g, (_, c) => c.toUpperCase()), style.getPropertyValue(`--picture-${name}`).trim()]));
    colours.ramp = rampOf([0, 1, 2, 3, 4].map(n => [n / 4, rgb(style.getPropertyValue(`--spectrum-${n}`).trim() || 'gray')]));
    colours.font = style.getPropertyValue('--picture-font').trim() || 'system-ui, sans-serif';
    return colours;
}

/** Calls back when the light of the page changes; returns a function that ends it. */
export function whenLightChanges(callback) {
    const query = matchMedia('(prefers-color-scheme: dark)');
    query.addEventListener('change', callback);
    const watch = new MutationObserver(callback);
    watch.observe(document.documentElement, { attributes: true });
    return () => {
        query.removeEventListener('change', callback);
        watch.disconnect();
    };
}
