using Athwart.Tests.Shared;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests;

/// <summary>The machine's own Chromium under Playwright's hand; tests without it are skipped with the reason.</summary>
internal sealed class Chromium : IAsyncDisposable
{
    private IPlaywright _driver = null!;

    private Chromium()
    {
    }

    public IBrowser Browser { get; private set; } = null!;

    public static async Task<Chromium> StartAsync()
    {
        var path = ReferenceProgram.Require("chromium");
        var chromium = new Chromium { _driver = await Playwright.CreateAsync() };
        chromium.Browser = await chromium._driver.Chromium.LaunchAsync(new() { ExecutablePath = path, Args = ["--no-sandbox"] });
        return chromium;
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync();
        _driver.Dispose();
    }
}
