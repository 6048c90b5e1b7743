using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Athwart.Desk.Browser.Tests;

/// <summary>The demo card through the whole day, by the hands and eyes of a person in a real browser.</summary>
public sealed class TheDayTests(DeskAndBrowser desk) : IClassFixture<DeskAndBrowser>
{
    private IPage Page => desk.Page;

    [Fact]
    public async Task TheDemoCard_GoesThroughTheWholeDay()
    {
        await EmptyPagesSayWhatToDo();
        await PlanAsync();
        await TakeInAsync();
        await CheckAsync();
        await CutAsync();
        await DeliverAsync();
        await FindAsync();
        await KeysAsync();

        Assert.Empty(desk.Complaints);
    }

    private async Task EmptyPagesSayWhatToDo()
    {
        foreach (var path in (string[])["/takes", "/shape", "/deliver", "/deliveries", "/find"])
        {
            await desk.GoAsync(path);
            await Expect(Page.Locator(".empty")).ToBeVisibleAsync();
            await Expect(Page.Locator(".empty a").First).ToBeVisibleAsync();
        }

        await desk.PictureAsync("empty-find");
        await desk.RunAxeAsync();
    }

    private async Task PlanAsync()
    {
        await desk.GoAsync("/plan/kit");
        await Page.GetByRole(AriaRole.Button, new() { Name = "take the invented kit" }).ClickAsync();
        await Expect(Page.Locator(".kit-table").First).ToBeVisibleAsync();
        await desk.PictureAsync("kit");
        await desk.RunAxeAsync();

        await desk.GoAsync("/plan");
        var before = await Page.Locator(".answers dd").First.InnerTextAsync();
        await Page.Locator("#side-level").FillAsync("6");
        await Expect(Page.Locator(".answers dd").First).Not.ToHaveTextAsync(before);
        await Expect(Page.Locator(".side-level-value")).ToHaveTextAsync("+6.0 dB");
        await desk.PictureAsync("plan");
        await desk.RunAxeAsync();
        var sheet = await Page.GetByRole(AriaRole.Link, new() { Name = "Field sheet" }).GetAttributeAsync("href");
        var answer = await Page.APIRequest.GetAsync(desk.Address + sheet);
        Assert.Contains("Record first: the line-up", await answer.TextAsync(), StringComparison.Ordinal);

        await desk.GoAsync("/plan/choose");
        await Expect(Page.Locator(".ranked li").First).ToBeVisibleAsync();
        await desk.PictureAsync("choose");
        await desk.RunAxeAsync();
    }

    private async Task TakeInAsync()
    {
        await desk.GoAsync("/take-in");
        await Page.GetByRole(AriaRole.Button, new() { Name = desk.Folder("card") }).ClickAsync();
        await Expect(Page.Locator(".card-table tbody tr").First).ToBeVisibleAsync();
        await desk.PictureAsync("take-in");
        await desk.RunAxeAsync();
        await Page.GetByLabel("What the session is called").FillAsync("Canal lock");
        await Page.GetByRole(AriaRole.Button, new() { Name = "Copy and prove" }).ClickAsync();
        await Page.GetByRole(AriaRole.Link, new() { Name = "See the takes" }).ClickAsync();
        await Expect(Page.GetByRole(AriaRole.Heading, new() { Name = "Takes" })).ToBeVisibleAsync();
        await Expect(Page.Locator(".take")).ToHaveCountAsync(8);
    }

    private async Task CheckAsync()
    {
        await Page.GetByRole(AriaRole.Button, new() { Name = "Check the session" }).ClickAsync();
        await Expect(Page.GetByRole(AriaRole.Button, new() { Name = "Check again" })).ToBeVisibleAsync(new() { Timeout = 90_000 });
        // The swapped take, the windy one and the clipped one are found by looking.
        await Expect(Page.Locator(".take", new() { HasText = "LOCK-T05" })).ToContainTextAsync("swapped: the mid is in channel 2");
        await Expect(Page.Locator(".take", new() { HasText = "LOCK-T01" })).Not.ToContainTextAsync("swapped");
        await Expect(Page.Locator(".take", new() { HasText = "LOCK-T03" })).ToContainTextAsync("wind");
        await Expect(Page.Locator(".badge", new() { HasText = "full scale runs" }).First).ToBeVisibleAsync();
        await Expect(Page.Locator(".take .strip").First).ToBeVisibleAsync();
        await Sound.SoundDesk.UntilAsync(Page, "document.querySelectorAll('.take .strip').length >= 6");
        await desk.PictureAsync("takes");
        await desk.RunAxeAsync();
    }

    private async Task CutAsync()
    {
        await Page.Locator(".take-cuts").First.ClickAsync();
        await Expect(Page.Locator(".cutting .strip")).ToBeVisibleAsync();
        var strip = (await Page.Locator("[data-strip]").BoundingBoxAsync())!;
        await Page.Mouse.MoveAsync(strip.X + (strip.Width * 0.2f), strip.Y + 40);
        await Page.Mouse.DownAsync();
        await Page.Mouse.MoveAsync(strip.X + (strip.Width * 0.5f), strip.Y + 60);
        await Page.Mouse.MoveAsync(strip.X + (strip.Width * 0.6f), strip.Y + 60);
        await Page.Mouse.UpAsync();
        await Expect(Page.Locator("[data-to]")).Not.ToHaveValueAsync("0");
        await Page.GetByLabel("Name", new() { Exact = true }).FillAsync("gate creak, slow");
        await Page.GetByLabel("Words to find it by").FillAsync("wood, gate");
        await Page.GetByRole(AriaRole.Button, new() { Name = "Mark the cut" }).ClickAsync();
        await Expect(Page.Locator(".cut-list li")).ToHaveCountAsync(1);
        // The width: a level for the whole session, seen at once where it is used.
        await Page.Locator("#session-side-level").FillAsync("-3");
        await Page.Locator(".cut-list button").First.ClickAsync();
        await desk.PictureAsync("shape");
        await desk.RunAxeAsync();
    }

    private async Task DeliverAsync()
    {
        await Page.GetByRole(AriaRole.Link, new() { Name = "Deliver and find" }).ClickAsync();
        await Expect(Page.Locator(".effects-table tbody tr")).ToHaveCountAsync(8);
        await Expect(Page.Locator(".effects-table")).ToContainTextAsync("−3.0 dB");
        await Page.GetByRole(AriaRole.Button, new() { Name = "Choose none" }).ClickAsync();
        await Page.GetByRole(AriaRole.Checkbox, new() { Name = "gate creak" }).CheckAsync();
        await desk.PictureAsync("deliver");
        await desk.RunAxeAsync();
        await Page.GetByRole(AriaRole.Button, new() { Name = "Deliver 1 effect" }).ClickAsync();
        await Page.GetByRole(AriaRole.Link, new() { Name = "Open the report" }).ClickAsync();
        await Expect(Page.FrameLocator("iframe.report").GetByRole(AriaRole.Heading, new() { Name = "Canal lock", Exact = true })).ToBeVisibleAsync();
        await desk.PictureAsync("delivery");
    }

    private async Task FindAsync()
    {
        await desk.GoAsync("/find");
        await Page.GetByRole(AriaRole.Searchbox).PressSequentiallyAsync("crea wood");
        await Expect(Page.Locator(".hits li")).ToHaveCountAsync(1);
        await Expect(Page.Locator(".hits audio")).ToBeVisibleAsync();
        // It really plays: the browser knows its length and the time moves.
        await Page.Locator(".hits audio").EvaluateAsync("async a => { a.muted = true; await a.play(); }");
        await Sound.SoundDesk.UntilAsync(Page, "(() => { const a = document.querySelector('.hits audio'); return a.duration > 1 && a.currentTime > 0.05; })()");
        await desk.PictureAsync("find");
        await desk.RunAxeAsync();
        await Page.GetByRole(AriaRole.Searchbox).FillAsync("nothing-such");
        await Expect(Page.Locator(".hits li")).ToHaveCountAsync(0);
    }

    private async Task KeysAsync()
    {
        await Page.Locator("h1").ClickAsync();
        await Page.Keyboard.PressAsync("?");
        await Expect(Page.Locator("#help")).ToBeVisibleAsync();
        await Expect(Page.Locator("#help dt")).Not.ToHaveCountAsync(0);
        await desk.PictureAsync("help");
        await desk.RunAxeAsync();
        await Page.Keyboard.PressAsync("Escape");
        await Page.Keyboard.PressAsync("1");
        await Expect(Page.GetByRole(AriaRole.Heading, new() { Name = "Plan", Exact = true })).ToBeVisibleAsync();
        var level = await Page.Locator(".side-level-value").InnerTextAsync();
        await Page.Keyboard.PressAsync("]");
        await Expect(Page.Locator(".side-level-value")).Not.ToHaveTextAsync(level);
        await Page.Keyboard.PressAsync("3");
        await Expect(Page.Locator(".take").First).ToBeVisibleAsync();
    }
}
