using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Athwart.Desk.Browser.Tests;

/// <summary>Somebody who has read nothing: by what stands on the pages alone, from the demo to a delivered effect and a sheet of paper.</summary>
[Collection(nameof(DemoDesk))]
public sealed class NewcomerTests(DemoDesk desk)
{
    // Power of left minus right against left plus right, behind the decoder: how wide what is in the ears is.
    private const string Width = """
        async () => {
            const { player } = document.querySelector('.take-view').takePage;
            const split = new ChannelSplitterNode(player.context, { numberOfOutputs: 2 });
            player.node.connect(split, 0);
            const ears = [0, 1].map(channel => {
                const ear = new AnalyserNode(player.context, { fftSize: 32768 });
                split.connect(ear, channel);
                return ear;
            });
            await new Promise(done => setTimeout(done, 900));
            const [left, right] = ears.map(ear => { const samples = new Float32Array(32768); ear.getFloatTimeDomainData(samples); return samples; });
            let sum = 0, difference = 0;
            for (let n = 0; n < left.length; n++) {
                sum += (left[n] + right[n]) ** 2;
                difference += (left[n] - right[n]) ** 2;
            }
            return [10 * Math.log10(sum), 10 * Math.log10(difference / sum)];
        }
        """;

    [Fact]
    public async Task ANewcomer_GetsThroughTheDay_WithoutReadingAnything()
    {
        List<string> complaints = [];
        var page = await desk.VisitAsync(complaints);

        await FindTheFaultsByLooking(page);
        await HearTheWidth(page);
        await MarkACut(page);
        await DeliverIt(page);
        await FindItAgain(page);
        await PrintTheSheet(page);

        Assert.Empty(complaints);
        await page.Context.CloseAsync();
    }

    private static async Task FindTheFaultsByLooking(IPage page)
    {
        await Expect(page.Locator(".take")).ToHaveCountAsync(8);
        await Expect(page.Locator(".take", new() { HasText = "swapped: the mid is in channel 2" })).ToContainTextAsync("LOCK-T05");
        await Expect(page.Locator(".take", new() { HasText = "LOCK-T03" }).Locator(".badge", new() { HasText = "wind" })).ToBeVisibleAsync();
        await Expect(page.Locator(".take .badge", new() { HasText = "wind" })).ToHaveCountAsync(1);
    }

    private static async Task HearTheWidth(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "LOCK-T03", Exact = true }).ClickAsync();
        await page.WaitForSelectorAsync(".take-view[data-ready]");
        await Expect(page.Locator(".take-findings")).ToContainTextAsync("wind", new() { IgnoreCase = true });
        await page.GetByRole(AriaRole.Button, new() { Name = "Play" }).ClickAsync();
        await Sound.SoundDesk.UntilAsync(page, "document.querySelector('.take-view').takePage.player.place > 24000");
        await page.Locator("#side-level").FillAsync("6");
        var wide = await page.EvaluateAsync<double[]>(Width);
        await page.Locator("#side-level").FillAsync("-18");
        var narrow = await page.EvaluateAsync<double[]>(Width);
        // There is sound, and 24 dB less side is heard as a narrower picture; the boat moves on meanwhile, so not as 24 dB exactly.
        Assert.InRange(wide[0], -60, 60);
        Assert.InRange(wide[1] - narrow[1], 12, 36);
        await page.GetByRole(AriaRole.Button, new() { Name = "Pause" }).ClickAsync();
    }

    private static async Task MarkACut(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Takes", Exact = true }).ClickAsync();
        await page.Locator(".take", new() { HasText = "LOCK-T06" }).Locator(".take-cuts").ClickAsync();
        await Expect(page.Locator(".cutting .strip")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Mark the cut" })).ToBeVisibleAsync();
        var strip = (await page.Locator("[data-strip]").BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(strip.X + (strip.Width * 0.3f), strip.Y + 50);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(strip.X + (strip.Width * 0.5f), strip.Y + 60, new() { Steps = 5 });
        await page.Mouse.UpAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("still water at the sill");
        await page.GetByRole(AriaRole.Button, new() { Name = "Mark the cut" }).ClickAsync();
        await Expect(page.Locator(".cut-list")).ToContainTextAsync("still water at the sill");
    }

    private static async Task DeliverIt(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Deliver and find" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Choose none" }).ClickAsync();
        await page.GetByRole(AriaRole.Checkbox, new() { Name = "still water at the sill" }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Deliver 1 effect" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Open the report" }).ClickAsync();
        await Expect(page.FrameLocator("iframe.report").Locator("body")).ToContainTextAsync("still water at the sill");
    }

    private static async Task FindItAgain(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Find", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Searchbox).PressSequentiallyAsync("sill");
        await Expect(page.Locator(".hits li")).ToHaveCountAsync(1);
        await Expect(page.Locator(".hits li")).ToContainTextAsync("still water at the sill");
        await page.Locator(".hits audio").EvaluateAsync("async a => { a.muted = true; await a.play(); }");
        await Sound.SoundDesk.UntilAsync(page, "document.querySelector('.hits audio').currentTime > 0.05");
    }

    private static async Task PrintTheSheet(IPage page)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        var sheet = await page.Context.RunAndWaitForPageAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "Field sheet to print" }).ClickAsync());
        await Expect(sheet.Locator("body")).ToContainTextAsync("Record first: the line-up");
        var paper = await sheet.PdfAsync(new() { Format = "A4" });
        // ISO 32000: a PDF begins with this.
        Assert.Equal("%PDF-"u8.ToArray(), paper[..5]);
        await sheet.CloseAsync();
    }
}
