using System.Text.Json;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests.Sound;

/// <summary>The time line of a take under hand and keys.</summary>
[Collection(nameof(SoundDesk))]
public sealed class TakeViewTests(SoundDesk desk)
{
    [Fact]
    public async Task TheTimeLine_IsWorkedByKeys_AndSaysWhatItShows()
    {
        var page = await desk.TakePageAsync(desk.Noise);
        await page.FocusAsync("[data-part=stage]");
        await page.Keyboard.PressAsync("f");
        var detail = page.Locator("[data-part=detail]");
        await Assertions.Expect(detail).ToContainTextAsync("Wind in the side");
        await Assertions.Expect(detail).ToContainTextAsync("level below 80 Hz -21.5 dBFS");
        await Assertions.Expect(detail).ToContainTextAsync("a low cut may help");
        await page.Keyboard.PressAsync("f");
        await Assertions.Expect(detail).ToContainTextAsync("clipped");

        await page.Keyboard.PressAsync("0");
        await page.Keyboard.PressAsync("Home");
        for (var n = 0; n < 5; n++)
            await page.Keyboard.PressAsync("Shift+ArrowRight");
        var (from, to) = await ChosenAsync(page);
        Assert.Equal(0, from);
        Assert.InRange(to, 5, 30_000);
        await page.Keyboard.PressAsync("End");
        await page.Keyboard.PressAsync(".");
        Assert.Equal((0, 288_000), await ChosenAsync(page));
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.Locator("[data-part=chosen]")).ToContainTextAsync("nothing chosen");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task ACutIsChosenByDragging_AndZoomReachesTheSample()
    {
        var page = await desk.TakePageAsync(desk.Noise);
        var box = (await page.Locator("[data-part=overlay]").BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(box.X + 300, box.Y + 150);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + 450, box.Y + 160, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        var (from, to) = await ChosenAsync(page);
        var framesPerPixel = 288_000.0 / (box.Width - 64);
        Assert.Equal(236 * framesPerPixel, from, framesPerPixel * 2);
        Assert.Equal(386 * framesPerPixel, to, framesPerPixel * 2);
        for (var n = 0; n < 30; n++)
            await page.Mouse.WheelAsync(0, -300);
        await SoundDesk.UntilAsync(page, "document.querySelector('.take-view').takePage.view.framesPerPixel < 0.1");
        // Forty pixels a frame: the samples themselves are drawn, from tiles of level 0.
        await SoundDesk.UntilAsync(page, "[...document.querySelector('.take-view').takePage.view.tiles.peakStore.held.keys()].some(k => k.startsWith('0/'))");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task EveryPicture_IsDrawn_InInkOfItsOwn()
    {
        var page = await desk.TakePageAsync(desk.Noise);
        foreach (var picture in new[] { "mid-side", "left-right", "side", "spectrum-mid-side", "spectrum-left-right" })
        {
            await page.SelectOptionAsync("[data-part=show]", picture);
            await page.WaitForTimeoutAsync(700);
            var colours = await page.EvaluateAsync<int>("""
                () => {
                    const canvas = document.querySelector('[data-part=picture]');
                    const { data } = canvas.getContext('2d').getImageData(80, 80, 400, 120);
                    return new Set(new Uint32Array(data.buffer)).size;
                }
                """);
            Assert.InRange(colours, 3, 48_000);
        }

        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task TakeAndLivePages_AreCleanUnderAxe()
    {
        var page = await desk.TakePageAsync(desk.Noise);
        await page.FocusAsync("[data-part=stage]");
        await page.Keyboard.PressAsync("f");
        await CheckAsync(page);
        await page.GotoAsync(desk.Address + "/live");
        await page.WaitForSelectorAsync(".live-view[data-ready]");
        await CheckAsync(page);
        await page.Context.CloseAsync();
    }

    // Only what is ours: the shell around it is checked with its own pages.
    private static async Task CheckAsync(IPage page)
    {
        var result = await page.RunAxe(new AxeRunContext { Include = [new(".take-view, .live-view")] });
        Assert.Empty(result.Violations.Select(v => $"{v.Id}: {v.Help} at {string.Join(", ", v.Nodes.Select(n => n.Html))}"));
    }

    private static async Task<(long From, long To)> ChosenAsync(IPage page)
    {
        var chosen = JsonSerializer.Deserialize<long[]>(await page.EvaluateAsync<string>("(() => { const s = document.querySelector('.take-view').takePage.view.selection; return JSON.stringify([s.from, s.to]); })()"))!;
        return (chosen[0], chosen[1]);
    }
}
