using System.Text.Json;
using Athwart.Recordings;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests.Sound;

/// <summary>The live page with a file as its input: Chromium plays a two-channel 44.1 kHz 16-bit file as the microphone.</summary>
[Collection(nameof(SoundDesk))]
public sealed class LiveTests(SoundDesk desk)
{
    private const int Rate = 44_100;

    // Two kinds of noise that have nothing to do with each other, so that any exchange or mix would show.
    [Fact]
    public async Task BothChannels_AreWhatWasSent_WithinHalfAStep()
    {
        var (mid, side) = (SoundDesk.RandomNoise(2 * Rate, 1, 0.4), SoundDesk.RandomNoise(2 * Rate, 2, 0.2));
        var page = await LiveAsync(mid, side);
        await page.CheckAsync("[data-part=ears]");
        await page.ClickAsync("[data-do=keep]");
        await SoundDesk.UntilAsync(page, "document.querySelector('.live-view').livePage.keptFrames > 30000");
        var download = await page.RunAndWaitForDownloadAsync(() => page.ClickAsync("[data-do=keep]"));
        var saved = desk.File("kept.wav");
        await download.SaveAsAsync(saved);
        AssertSame(desk.Microphone, saved);

        await Assertions.Expect(page.Locator("[data-part=watches]")).ToContainTextAsync("Two different channels come in");
        await Assertions.Expect(page.Locator("[data-part=latency]")).ToContainTextAsync("ms from microphone to ear");
        await page.Context.CloseAsync();
    }

    // Bursts between silence, in the side at half the level and in phase: a sound on the left.
    [Theory]
    [InlineData(0.5, "left", "Heard left")]
    [InlineData(-0.5, "left", "the side is turned over")]
    [InlineData(-0.5, "right", "Heard right")]
    [InlineData(0.05, "ahead", "the side looks straight across")]
    [InlineData(3, "ahead", "the channels are exchanged")]
    public async Task TheLineUp_SaysWhatItHeard(double ratio, string place, string words)
    {
        var mid = SoundDesk.RandomNoise(2 * Rate, 1, 0.25);
        for (var n = 0; n < mid.Length; n++)
            mid[n] *= n % Rate < Rate * 7 / 10 ? 0.01 : 1;
        var page = await LiveAsync(mid, [.. mid.Select(m => m * ratio)]);
        await SoundDesk.UntilAsync(page, "document.querySelector('.live-view').livePage.reports.length > 12");
        await page.ClickAsync($"[data-do=hear-{place}]");
        await Assertions.Expect(page.Locator($"[data-part=said-{place}]")).ToContainTextAsync(words);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task OneChannelOnBoth_IsSaidPlainly()
    {
        var mid = SoundDesk.RandomNoise(2 * Rate, 1, 0.4);
        var page = await LiveAsync(mid, mid);
        await Assertions.Expect(page.Locator("[data-part=watches]")).ToContainTextAsync("one channel only");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task ADeadSide_IsSaidPlainly()
    {
        var page = await LiveAsync(SoundDesk.RandomNoise(2 * Rate, 1, 0.4), new double[2 * Rate]);
        await Assertions.Expect(page.Locator("[data-part=watches]")).ToContainTextAsync("The side channel is digital silence");
        await page.Context.CloseAsync();
    }

    // The rules of the watches, each with a case of its own; run in the browser, where they live.
    [Fact]
    public async Task TheWatches_TellOneFaultFromAnother()
    {
        var page = await desk.PageAsync();
        var kinds = JsonSerializer.Deserialize<Dictionary<string, string[]>>(await page.EvaluateAsync<string>("""
            async () => {
                const { Watch, judge } = await import('/sound/watch.js');
                const rate = 8000;
                let seed = 1;
                const noise = () => { seed = (seed * 1103515245 + 12345) % 2147483648; return seed / 1073741824 - 1; };
                const low = () => { let y = 0; return () => (y += 0.01 * (noise() - y)) * 3; };
                const cases = {
                    sound: () => [noise() * 0.3, noise() * 0.1],
                    swapped: () => [noise() * 0.1, noise() * 0.4],
                    clipped: () => [Math.max(-1, Math.min(1, noise() * 40)), noise() * 0.3],
                    wind: (() => { const a = low(), b = low(); return () => [a(), b()]; })(),
                    weak: () => [noise() * 0.5, noise() * 0.0001],
                    opposed: () => { const x = noise() * 0.3; return [x, -x * 0.9]; },
                    silent: () => [0, 0],
                };
                const out = {};
                for (const [name, make] of Object.entries(cases)) {
                    const watch = new Watch(rate), reports = [];
                    for (let n = 0; n < rate * 3; n++) {
                        watch.add(...make());
                        if (watch.isFull)
                            reports.push(watch.take());
                    }
                    out[name] = judge(reports).map(f => f.kind);
                }
                return JSON.stringify(out);
            }
            """))!;
        Assert.Empty(kinds["sound"]);
        Assert.Equal(["roles-swapped"], kinds["swapped"]);
        Assert.Equal(["clipped"], kinds["clipped"]);
        Assert.Equal(["wind"], kinds["wind"]);
        Assert.Equal(["side-dead"], kinds["weak"]);
        Assert.Equal(["side-like-mid"], kinds["opposed"]);
        Assert.Equal(["silent"], kinds["silent"]);
        await page.Context.CloseAsync();
    }

    private async Task<IPage> LiveAsync(double[] mid, double[] side)
    {
        File.Delete(desk.Microphone);
        // 24-bit files reach the page as silence; 16 bits at the browser's own rate arrive to the bit.
        SoundDesk.Write(desk.Microphone, [.. mid.Select(x => Math.Clamp(x, -1, 1))], [.. side.Select(x => Math.Clamp(x, -1, 1))], Rate, SampleFormat.Int16);
        var page = await desk.LivePageAsync();
        await page.GotoAsync(desk.Address + "/live");
        await page.WaitForSelectorAsync(".live-view[data-ready]");
        await page.ClickAsync("[data-do=begin]");
        await SoundDesk.UntilAsync(page, "document.querySelector('.live-view').livePage.reports.length > 3");
        return page;
    }

    // The file goes round, so the kept stretch lies somewhere in it; from there on every frame of both channels is the same. Chromium
    // divides positive 16-bit words by 32767 and negative ones by 32768: hence up to half a step, which rounding takes away again.
    private static void AssertSame(string sentPath, string keptPath)
    {
        var (sent, kept) = (Samples(sentPath), Samples(keptPath));
        var length = sent[0].Length;
        var start = Enumerable.Range(0, length).First(at => Enumerable.Range(0, 24).All(n => Same(0, at, n)));
        Assert.Equal(16_000, Enumerable.Range(0, 16_000).Count(n => Same(0, start, n) && Same(1, start, n)));

        bool Same(int channel, int at, int n) => Math.Abs(sent[channel][(at + n) % length] - kept[channel][n + 1000]) <= 0.51f / 32768;
    }

    private static float[][] Samples(string path)
    {
        using var file = RecordingFile.Open(path);
        PlanarBlock<float> block = new(2, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        return [block.Channel(0).ToArray(), block.Channel(1).ToArray()];
    }
}
