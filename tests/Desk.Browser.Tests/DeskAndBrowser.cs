using Athwart.Desk.Safety;
using Athwart.Jobs.Demo;
using Athwart.Tests.Shared;
using Deque.AxeCore.Playwright;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests;

/// <summary>A demo card, a desk over a new library, and a browser that came in by the link. Made once for all tests of the assembly.</summary>
public sealed class DeskAndBrowser : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private Chromium _chromium = null!;
    private WebApplication _app = null!;

    internal IPage Page { get; private set; } = null!;

    internal string Address { get; private set; } = "";

    internal List<string> Complaints { get; } = [];

    internal string Folder(string name) => _folder.File(name);

    public async ValueTask InitializeAsync()
    {
        _chromium = await Chromium.StartAsync();
        DemoCard.Write(_folder.File("card"), null, TestContext.Current.CancellationToken);
        _app = DeskHost.Create(new()
        {
            Library = _folder.File("library"),
            Deliveries = _folder.File("deliveries"),
            CardFolders = [_folder.File("card")],
            Mounts = () => [],
            StateFolder = _folder.File("state"),
            Port = 0,
        });
        await _app.StartAsync();
        Address = $"http://127.0.0.1:{DeskAddress.PortOf(_app.Services.GetRequiredService<IServer>())}";
        var context = await _chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 1280, Height = 720 } });
        Page = await context.NewPageAsync();
        Page.SetDefaultTimeout(45_000);
        Page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                Complaints.Add(message.Text);
        };
        Page.PageError += (_, error) => Complaints.Add(error);
        await Page.GotoAsync(Address + "/open?key=" + _app.Services.GetRequiredService<EntryTokens>().New());
        await Page.WaitForURLAsync(Address + "/");
    }

    /// <summary>Opens a page and waits until it is live.</summary>
    internal async Task GoAsync(string path)
    {
        await Page.GotoAsync(Address + path);
        await Sound.SoundDesk.UntilAsync(Page, "document.documentElement.dataset.live === 'yes'");
        await Page.WaitForTimeoutAsync(250);
    }

    /// <summary>Runs axe over the page as it stands, report frames left to their own tests, and keeps what it says; the test ends by wanting no complaint.</summary>
    internal async Task RunAxeAsync()
    {
        var result = await Page.RunAxe();
        if (result.Violations.Length > 0)
            Complaints.Add(Page.Url + ": " + string.Join("; ", result.Violations.Select(v => $"{v.Id}: {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}")));
    }

    /// <summary>Keeps a picture where ATHWART_PICTURES names a folder; people look at them and some are kept in docs/desk.</summary>
    internal async Task PictureAsync(string name)
    {
        if (Environment.GetEnvironmentVariable("ATHWART_PICTURES") is not { Length: > 0 } folder)
            return;
        foreach (var (light, width, height) in ((string, int, int)[])[("day", 1280, 720), ("night", 1280, 720), ("day", 1920, 1080), ("night", 1920, 1080), ("sun", 1280, 720), ("day", 820, 1180)])
        {
            await Page.SetViewportSizeAsync(width, height);
            await Page.EvaluateAsync("name => document.documentElement.className = name", light == "sun" ? "day sun" : light);
            await Page.WaitForTimeoutAsync(350);
            await Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-{light}-{width}.png") });
        }

        await Page.SetViewportSizeAsync(1280, 720);
        await Page.EvaluateAsync("document.documentElement.className = ''");
    }

    public async ValueTask DisposeAsync()
    {
        await _chromium.DisposeAsync();
        await _app.DisposeAsync();
        _folder.Dispose();
    }
}
