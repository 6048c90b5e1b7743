// What the pages need of the browser itself: light, keys, dialogs, marking a cut by hand, and what to do when the desk goes away.
const storage = window.localStorage;
const classes = { system: '', day: 'day', night: 'night', sun: 'day sun' };

// Light
document.addEventListener('change', event => {
    const input = event.target;
    if (input.name === 'light') {
        storage.setItem('desk-light', input.value);
        document.documentElement.className = classes[input.value] ?? '';
    }
    if (input.matches?.('[data-single-keys]'))
        storage.setItem('desk-single-keys', input.checked ? 'on' : 'off');
});

// Dialogs and the tray
function open(id) {
    const dialog = document.getElementById(id);
    if (!dialog || dialog.open)
        return;
    if (id === 'light')
        (dialog.querySelector(`[value="${storage.getItem('desk-light') ?? 'system'}"]`) ?? {}).checked = true;
    if (id === 'help')
        listKeys(dialog);
    dialog.showModal();
}

function listKeys(dialog) {
    const list = dialog.querySelector('[data-keys]');
    list.replaceChildren();
    const seen = new Set();
    for (const element of document.querySelectorAll('[data-key][data-key-says]')) {
        const key = element.dataset.key;
        if (seen.has(key) || element.closest('dialog'))
            continue;
        seen.add(key);
        const term = document.createElement('dt');
        const kbd = document.createElement('kbd');
        kbd.textContent = key;
        term.append(kbd);
        const words = document.createElement('dd');
        words.textContent = element.dataset.keySays;
        list.append(term, words);
    }
    dialog.querySelector('[data-single-keys]').checked = storage.getItem('desk-single-keys') !== 'off';
}

document.addEventListener('click', event => {
    const opener = event.target.closest?.('[data-opens]');
    if (opener)
        open(opener.dataset.opens);
    if (event.target.closest?.('[data-reload]')) {
        event.preventDefault();
        location.reload();
    }
    const skip = event.target.closest?.('[data-skip]');
    if (skip) {
        event.preventDefault();
        document.getElementById('work')?.focus();
    }
    const tray = document.querySelector('details.tray[open]');
    if (tray && !tray.contains(event.target))
        tray.open = false;
});

// Keys: an element says which key presses or focuses it
const typing = element => element.isContentEditable || element.matches('textarea, select, input:not([type=checkbox]):not([type=radio]):not([type=range]):not([type=button])');

document.addEventListener('keydown', event => {
    if (event.key === 'Escape') {
        const tray = document.querySelector('details.tray[open]');
        if (tray) {
            tray.open = false;
            tray.querySelector('summary').focus();
        }
        return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented || typing(event.target) || document.querySelector('dialog[open]'))
        return;
    if (storage.getItem('desk-single-keys') === 'off' && event.key !== '?')
        return;
    const target = [...document.querySelectorAll('[data-key]')].find(e => e.dataset.key === event.key && !e.disabled && e.getClientRects().length > 0);
    if (!target)
        return;
    event.preventDefault();
    if (target.matches('input, select'))
        target.focus();
    else
        target.click();
});

// Marking a cut: dragging over the shape of a take writes its two seconds into the fields
let drag = null;

function place(strip, event) {
    const box = strip.getBoundingClientRect();
    return Math.min(1, Math.max(0, (event.clientX - box.left) / box.width)) * Number(strip.dataset.seconds);
}

function show(strip, from, to) {
    const mark = strip.querySelector('[data-mark]');
    const seconds = Number(strip.dataset.seconds) || 1;
    mark.setAttribute('x', String(1000 * from / seconds));
    mark.setAttribute('width', String(1000 * (to - from) / seconds));
}

document.addEventListener('pointerdown', event => {
    const strip = event.target.closest?.('[data-strip]');
    if (!strip || event.button !== 0)
        return;
    const at = place(strip, event);
    const from = Number(document.querySelector('[data-from]')?.value) || 0;
    const to = Number(document.querySelector('[data-to]')?.value) || 0;
    const near = Number(strip.dataset.seconds) * 8 / strip.getBoundingClientRect().width;
    const anchor = to > from && Math.abs(at - from) < near ? to : to > from && Math.abs(at - to) < near ? from : at;
    drag = { strip, anchor, at };
    strip.setPointerCapture(event.pointerId);
    event.preventDefault();
});

document.addEventListener('pointermove', event => {
    if (!drag)
        return;
    drag.at = place(drag.strip, event);
    show(drag.strip, Math.min(drag.anchor, drag.at), Math.max(drag.anchor, drag.at));
});

document.addEventListener('pointerup', () => {
    if (!drag)
        return;
    const { anchor, at } = drag;
    drag = null;
    if (Math.abs(anchor - at) < 1e-4)
        return;
    write('[data-from]', Math.min(anchor, at));
    write('[data-to]', Math.max(anchor, at));
});

function write(selector, seconds) {
    const field = document.querySelector(selector);
    if (!field)
        return;
    field.value = seconds.toFixed(4);
    field.dispatchEvent(new Event('change', { bubbles: true }));
}

// When the desk goes away: say so, ask again, and load the page anew once it is back
const away = document.getElementById('components-reconnect-modal');
let asking = 0;

function loadAnew() {
    sessionStorage.setItem('desk-restarted', 'yes');
    location.reload();
}

function goneAway() {
    away.textContent = 'The desk does not answer. It may have been closed, or the machine slept. Trying again every second; what was kept is safe.';
    away.hidden = false;
    window.clearTimeout(asking);
    asking = window.setTimeout(ask, 300);
}

async function ask() {
    try {
        const answer = await fetch('desk/here', { cache: 'no-store' });
        if (answer.status === 401) {
            away.textContent = 'The desk was started again and does not know this browser any more. Open the link that it printed.';
            return;
        }
        if (answer.ok) {
            if (await Blazor.reconnect().catch(() => false)) {
                away.hidden = true;
                return;
            }
            loadAnew();
            return;
        }
    } catch {
        // Still away.
    }
    asking = window.setTimeout(ask, 1000);
}

Blazor.start({
    circuit: {
        reconnectionHandler: {
            onConnectionDown: goneAway,
            onConnectionUp: () => { away.hidden = true; },
        },
    },
}).then(() => { document.documentElement.dataset.live = 'yes'; });

// A desk that says good-bye closes the connection in order, which nobody reports: so it is also asked now and then.
let born = '';
window.setInterval(async () => {
    if (document.hidden || !away.hidden)
        return;
    try {
        const answer = await fetch('desk/here', { cache: 'no-store' });
        const now = answer.ok ? await answer.text() : born;
        if (born && now !== born)
            loadAnew();
        born ||= now;
    } catch {
        goneAway();
    }
}, 3000);

if (sessionStorage.getItem('desk-restarted')) {
    sessionStorage.removeItem('desk-restarted');
    const said = document.getElementById('restarted');
    said.textContent = 'The desk was started again and this page was loaded anew. What was not yet kept in a form is gone.';
    said.hidden = false;
    window.setTimeout(() => { said.hidden = true; }, 20000);
}
