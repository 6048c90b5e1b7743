using Athwart.Desk.Safety;
using Athwart.Tests.Shared;
using Microsoft.Extensions.DependencyInjection;
using static Microsoft.Playwright.Assertions;

namespace Athwart.Desk.Browser.Tests;

/// <summary>The desk is ended and started again under an open page.</summary>
public sealed class RestartTests
{
    [Fact]
    public async Task APage_SurvivesARestart_AndSaysSo()
    {
        using var folder = new TemporaryFolder();
        await using var chromium = await Chromium.StartAsync();
        DeskOptions options = new() { Library = folder.File("library"), Deliveries = folder.File("deliveries"), StateFolder = folder.File("state"), Mounts = () => [], Port = 0 };
        var app = DeskHost.Create(options);
        await app.StartAsync();
        var address = DemoDesk.AddressOf(app);
        var page = await (await chromium.Browser.NewContextAsync()).NewPageAsync();
        page.SetDefaultTimeout(60_000);
        await page.GotoAsync(address + "/open?key=" + app.Services.GetRequiredService<EntryTokens>().New());
        await page.GotoAsync(address + "/plan?mid=cardioid&side=figure-8&level=-3");
        await DemoDesk.LiveAsync(page);

        await app.StopAsync(TestContext.Current.CancellationToken);
        await app.DisposeAsync();
        await Expect(page.Locator("#components-reconnect-modal")).ToContainTextAsync("The desk does not answer", new() { Timeout = 60_000 });
        await Expect(page.Locator("#components-reconnect-modal")).ToBeVisibleAsync();

        await using var again = DeskHost.Create(options with { Port = new Uri(address).Port });
        await again.StartAsync(TestContext.Current.CancellationToken);
        await Expect(page.Locator("#restarted")).ToContainTextAsync("started again", new() { Timeout = 60_000 });
        await DemoDesk.LiveAsync(page);
        // And it works: what the hand turns is answered by the new desk.
        var before = await page.Locator(".side-level-value").InnerTextAsync();
        // On a busy machine the page is drawn a while before it answers.
        for (var tries = 0; tries < 20 && await page.Locator(".side-level-value").InnerTextAsync() == before; tries++)
        {
            await page.Keyboard.PressAsync("]");
            await page.WaitForTimeoutAsync(500);
        }

        await Expect(page.Locator(".side-level-value")).Not.ToHaveTextAsync(before);
    }
}
