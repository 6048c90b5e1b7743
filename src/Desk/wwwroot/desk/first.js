// Before the first picture: the light that was chosen last, so that a dark page never flashes white.
const classes = { system: '', day: 'day', night: 'night', sun: 'day sun' };
document.documentElement.className = classes[localStorage.getItem('desk-light')] ?? '';
