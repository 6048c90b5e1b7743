using System.Diagnostics;
using Athwart.Tests.Shared;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests;

/// <summary>Each page under axe by day, by night and in sunlight; pictures of each where ATHWART_PICTURES names a folder (docs/desk is made so).</summary>
[Collection(nameof(DemoDesk))]
public sealed class EveryPageTests(DemoDesk desk)
{
    private static readonly (string Light, string Classes)[] Lights = [("day", "day"), ("night", "night"), ("sunlight", "day sun")];

    // ATHWART_PAGES, names with commas between, makes the pictures of some pages again.
    public static TheoryData<string> Pages =>
        [.. EveryPage.Names.Where(n => Environment.GetEnvironmentVariable("ATHWART_PAGES") is not { Length: > 0 } some || some.Split(',').Contains(n, StringComparer.Ordinal))];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task EveryPage_IsCleanUnderAxe_ByDayByNightAndInSunlight(string name)
    {
        List<string> complaints = [];
        var page = await desk.VisitAsync(complaints);
        await EveryPage.OpenAsync(desk, page, name);
        List<string> violations = [];
        foreach (var (light, classes) in Lights)
        {
            await page.EvaluateAsync("name => document.documentElement.className = name", classes);
            await page.WaitForTimeoutAsync(300);
            var result = await page.RunAxe();
            violations.AddRange(result.Violations.Select(v => $"{light}: {v.Id}: {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}"));
        }

        await PicturesAsync(page, name);
        Assert.Empty(violations);
        // A page that is not there is answered as one, and the browser notes that. A machine too busy to answer for half a minute is no fault of a page.
        Assert.DoesNotContain(complaints, c => (name != "nowhere" || !c.Contains("404", StringComparison.Ordinal)) && !c.Contains("Server timeout elapsed", StringComparison.Ordinal));
        await page.Context.CloseAsync();
    }

    private static async Task PicturesAsync(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("ATHWART_PICTURES") is not { Length: > 0 } folder)
            return;
        foreach (var (light, classes) in Lights)
        {
            foreach (var (width, height) in ((int, int)[])[(1280, 720), (1920, 1080)])
            {
                await page.SetViewportSizeAsync(width, height);
                await page.EvaluateAsync("name => document.documentElement.className = name", classes);
                await page.EvaluateAsync("document.activeElement?.blur(); window.scrollTo(0, 0)");
                await page.WaitForTimeoutAsync(450);
                if (light != "sunlight" || width == 1280)
                    await KeepAsync(await page.ScreenshotAsync(), Path.Combine(folder, $"{name}-{light}-{width}.png"));
            }
        }
    }

    // 64 colours are enough for our pages, and a third of the bytes.
    private static async Task KeepAsync(byte[] png, string path)
    {
        var whole = path + ".whole.png";
        await File.WriteAllBytesAsync(whole, png);
        using var ffmpeg = Process.Start(new ProcessStartInfo(
            ReferenceProgram.Require("ffmpeg"),
            ["-loglevel", "error", "-y", "-i", whole, "-vf", "split[a][b];[a]palettegen=max_colors=64:stats_mode=single[p];[b][p]paletteuse=dither=none", "-compression_level", "100", path]))!;
        await ffmpeg.WaitForExitAsync();
        Assert.Equal(0, ffmpeg.ExitCode);
        File.Delete(whole);
    }
}
