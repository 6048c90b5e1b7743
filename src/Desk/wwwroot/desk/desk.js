Blazor.start();
