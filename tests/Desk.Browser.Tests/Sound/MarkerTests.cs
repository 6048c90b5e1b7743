using Athwart.Catalogue;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Athwart.Desk.Browser.Tests.Sound;

/// <summary>Markers of the recordist's own on the time line, and takes that come and go on one page.</summary>
[Collection(nameof(SoundDesk))]
public sealed class MarkerTests(SoundDesk desk)
{
    [Fact]
    public async Task AMarker_IsSetAtTheCursor_Named_Moved_SeenInAnotherWindow_AndRemoved()
    {
        var page = await desk.TakePageAsync(desk.Noise);
        var other = await desk.TakePageAsync(desk.Noise);
        await DemoDesk.LiveAsync(page);
        await page.EvaluateAsync("document.querySelector('.take-view').takePage.goTo(96000)");
        await page.Locator("h1").ClickAsync();
        await page.Keyboard.PressAsync("k");
        await Expect(page.Locator(".marker-list li")).ToHaveCountAsync(1);
        await Expect(page.Locator(".marker-list .place")).ToContainTextAsync("0:01.000");
        await page.Locator(".marker-list input").FillAsync("chain drops");
        await page.Keyboard.PressAsync("Tab");
        await Expect(other.Locator(".marker-list input")).ToHaveValueAsync("chain drops");
        await SoundDesk.UntilAsync(other, "document.querySelector('.take-view').takePage.view.own.some(m => m.label === 'chain drops' && m.frame === 96000)");

        await page.EvaluateAsync("document.querySelector('.take-view').takePage.goTo(192000)");
        await page.GetByRole(AriaRole.Button, new() { Name = "Move it to the cursor" }).ClickAsync();
        await Expect(page.Locator(".marker-list .place")).ToContainTextAsync("0:02.000");
        Assert.Equal(192_000, Assert.Single(Kept()).Range.From.Value);
        await page.EvaluateAsync("document.querySelector('.take-view').takePage.choose(9600, 19200)");
        await page.GetByRole(AriaRole.Button, new() { Name = "Set a marker here" }).ClickAsync();
        await Expect(page.Locator(".marker-list .place").First).ToContainTextAsync("0:00.100 to 0:00.200");
        foreach (var left in (int[])[1, 0])
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Remove the marker" }).First.ClickAsync();
            await Expect(page.Locator(".marker-list li")).ToHaveCountAsync(left);
        }

        Assert.Empty(Kept());
        await page.Context.CloseAsync();
        await other.Context.CloseAsync();
    }

    // Going from take to take inside the desk, the decoder is fetched once, not for each playing.
    [Fact]
    public async Task TheDecoder_IsFetchedOnce_HoweverManyTakesArePlayed()
    {
        var page = await desk.TakePageAsync(desk.Tones);
        // The driver does not see what the audio thread fetches, so the asking is counted.
        await page.EvaluateAsync("() => { const add = AudioWorklet.prototype.addModule; window.fetched = 0; AudioWorklet.prototype.addModule = function (...all) { window.fetched++; return add.apply(this, all); }; }");
        await PlayAsync(page);
        foreach (var take in (TakeId[])[desk.SideTone, desk.Tones])
        {
            await page.EvaluateAsync("id => Blazor.navigateTo('/takes/' + id)", take.Value);
            await SoundDesk.UntilAsync(page, $"document.querySelector('.take-view[data-ready]')?.takePage.take.id === '{take.Value}'");
            await PlayAsync(page);
        }

        Assert.Equal(1, await page.EvaluateAsync<int>("window.fetched"));
        await page.Context.CloseAsync();
    }

    private static async Task PlayAsync(IPage page)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
        await SoundDesk.UntilAsync(page, "document.querySelector('.take-view').takePage.player.place > 4800");
    }

    private IReadOnlyList<OwnMarker> Kept()
    {
        using var library = Library.Open(desk.Library, LibraryAccess.Read);
        return library.Markers(desk.Noise);
    }
}
