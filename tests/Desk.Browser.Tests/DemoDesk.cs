using Athwart.Catalogue;
using Athwart.Desk.Safety;
using Athwart.Jobs.Demo;
using Athwart.Tests.Shared;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests;

/// <summary>A desk over the whole demo, as 'athwart demo' leaves it, and browsers that come in by its link. Made once for the tests that share it.</summary>
public sealed class DemoDesk : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private IPlaywright _driver = null!;
    private IBrowser _browser = null!;

    internal WebApplication App { get; private set; } = null!;

    internal DemoReport Demo { get; private set; } = null!;

    internal string Address { get; private set; } = "";

    internal string Deliveries => _folder.File("athwart-demo/deliveries");

    internal DeskOptions Options => new()
    {
        Library = _folder.File("athwart-demo/library"),
        Deliveries = Deliveries,
        CardFolders = [_folder.File("athwart-demo/card")],
        Mounts = () => [],
        StateFolder = _folder.File("state"),
        Port = 0,
    };

    public async ValueTask InitializeAsync()
    {
        var path = ReferenceProgram.Require("chromium");
        Demo = DemoJob.Run(new(_folder.File("athwart-demo")), null, TestContext.Current.CancellationToken);
        App = DeskHost.Create(Options);
        await App.StartAsync();
        Address = AddressOf(App);
        _driver = await Playwright.CreateAsync();
        _browser = await _driver.Chromium.LaunchAsync(new()
        {
            ExecutablePath = path,
            Args = ["--no-sandbox", "--autoplay-policy=no-user-gesture-required", "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream"],
        });
        Assertions.SetDefaultExpectTimeout(45_000);
    }

    /// <summary>A person's own browser, let in by a link, on the first page.</summary>
    internal async Task<IPage> VisitAsync(List<string>? complaints = null)
    {
        var context = await _browser.NewContextAsync(new() { ViewportSize = new() { Width = 1280, Height = 720 } });
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(60_000);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                complaints?.Add(message.Text);
        };
        page.PageError += (_, error) => complaints?.Add(error);
        await page.GotoAsync(Address + "/open?key=" + App.Services.GetRequiredService<EntryTokens>().New());
        await page.WaitForURLAsync(Address + "/");
        await LiveAsync(page);
        return page;
    }

    internal async Task GoAsync(IPage page, string path)
    {
        await page.GotoAsync(Address + path);
        await LiveAsync(page);
    }

    /// <summary>Waits until a page answers to the hand.</summary>
    internal static async Task LiveAsync(IPage page)
    {
        await Sound.SoundDesk.UntilAsync(page, "document.documentElement.dataset.live === 'yes'");
        await page.WaitForTimeoutAsync(250);
    }

    /// <summary>The id of a take of the demo.</summary>
    internal TakeSummary Take(string name)
    {
        using var library = Library.Open(Options.Library, LibraryAccess.Read);
        return library.Summaries(library.Sessions()[0].Id).Single(t => string.Equals(t.Name, name, StringComparison.Ordinal));
    }

    internal static string AddressOf(WebApplication app) => $"http://127.0.0.1:{DeskAddress.PortOf(app.Services.GetRequiredService<IServer>())}";

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
            await _browser.DisposeAsync();
        _driver?.Dispose();
        if (App is not null)
            await App.DisposeAsync();
        _folder.Dispose();
    }
}

/// <summary>One demo for all tests that look at it: making it takes longer than most of them.</summary>
[CollectionDefinition(nameof(DemoDesk))]
public sealed class DemoDeskTests : ICollectionFixture<DemoDesk>;
