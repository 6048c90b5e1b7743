// Before the first picture: the light that was chosen last, so that a dark page never flashes white.
document.documentElement.dataset.light = localStorage.getItem('desk-light') ?? 'system';
