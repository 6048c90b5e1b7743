using Athwart.Catalogue;
using Athwart.Desk.Safety;
using Athwart.Jobs.Decode;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.TakeIn;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Tests.Shared;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Athwart.Desk.Browser.Tests.Sound;

/// <summary>A running desk over a library of takes whose every sample is known, and browsers that come in by its link.</summary>
public sealed class SoundDesk : IAsyncLifetime
{
    public const int Rate = 48_000;
    private readonly TemporaryFolder _folder = new();
    private readonly Dictionary<string, IBrowser> _browsers = [];
    private WebApplication _app = null!;
    private IPlaywright _driver = null!;

    public string Address { get; private set; } = "";

    /// <summary>1 kHz on the left, 3 kHz on the right, 20 s.</summary>
    public TakeId Tones { get; private set; }

    /// <summary>Nothing in the mid, 1 kHz in the side, 30 s.</summary>
    public TakeId SideTone { get; private set; }

    /// <summary>Noise of 3 s in 24 bits at 96 kHz, with findings.</summary>
    public TakeId Noise { get; private set; }

    public string Library => Path.Combine(_folder.Path, "library");

    /// <summary>The session of a take.</summary>
    public SessionId SessionOf(TakeId take)
    {
        using var library = Catalogue.Library.Open(Library, LibraryAccess.Read);
        return library.GetTake(take)!.Session;
    }

    public string NoiseFile => Path.Combine(_folder.Path, "card-noise", "noise.wav");

    public async ValueTask InitializeAsync()
    {
        var chromium = ReferenceProgram.Require("chromium");
        var (left, right) = (Tone(1000, 20, 0.25), Tone(3000, 20, 0.125));
        Tones = Add("tones", [.. left.Zip(right, (l, r) => (l + r) / 2)], [.. left.Zip(right, (l, r) => (l - r) / 2)], Rate);
        SideTone = Add("side", new double[30 * Rate], Tone(1000, 30, 0.25), Rate);
        Noise = Add("noise", RandomNoise(3 * 96_000, 1, 0.4), RandomNoise(3 * 96_000, 2, 0.2), 96_000);
        AddFindings();
        var options = new DeskOptions { Library = Path.Combine(_folder.Path, "library"), Deliveries = _folder.File("deliveries"), StateFolder = _folder.File("state"), Port = 0 };
        _app = DeskHost.Create(options);
        await _app.StartAsync();
        Address = $"http://127.0.0.1:{DeskAddress.PortOf(_app.Services.GetRequiredService<IServer>())}";
        _driver = await Playwright.CreateAsync();
        Executable = chromium;
        Assertions.SetDefaultExpectTimeout(30_000);
    }

    public string Executable { get; private set; } = "";

    public string File(string name) => _folder.File(name);

    /// <summary>The file that is the microphone of <see cref="LivePageAsync"/>; read anew whenever a page begins to listen.</summary>
    public string Microphone => _folder.File("microphone.wav");

    /// <summary>A page that was let in; each has a context of its own, all share a browser.</summary>
    public Task<IPage> PageAsync() => PageAsync("ears", "--autoplay-policy=no-user-gesture-required");

    /// <summary>A page whose input is the file.</summary>
    public Task<IPage> LivePageAsync() =>
        PageAsync("live", "--autoplay-policy=no-user-gesture-required", "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", "--use-file-for-fake-audio-capture=" + Microphone);

    private async Task<IPage> PageAsync(string kind, params string[] arguments)
    {
        if (!_browsers.TryGetValue(kind, out var browser))
            _browsers[kind] = browser = await _driver.Chromium.LaunchAsync(new() { ExecutablePath = Executable, Args = ["--no-sandbox", .. arguments] });
        var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1280, Height = 900 } });
        var page = await context.NewPageAsync();
        // Generous: on a busy machine a page is slow to come alive, and that is not what is tested.
        page.SetDefaultTimeout(90_000);
        await page.GotoAsync($"{Address}/open?key={_app.Services.GetRequiredService<EntryTokens>().New()}");
        await page.WaitForURLAsync(url => !url.Contains("/open", StringComparison.Ordinal), new() { WaitUntil = WaitUntilState.Commit });
        return page;
    }

    /// <summary>The page of a take, ready for the hand.</summary>
    public async Task<IPage> TakePageAsync(TakeId take)
    {
        var page = await PageAsync();
        await page.GotoAsync($"{Address}/takes/{take.Value}");
        await page.WaitForSelectorAsync(".take-view[data-ready]");
        return page;
    }

    /// <summary>Waits until something holds on the page; the page's own policy forbids the driver's way of waiting, which evaluates text.</summary>
    public static async Task UntilAsync(IPage page, string expression)
    {
        for (var tries = 0; tries < 600; tries++)
        {
            if (await page.EvaluateAsync<bool>(expression))
                return;
            await page.WaitForTimeoutAsync(100);
        }

        Assert.Fail($"after a minute it does not hold that {expression}");
    }

    /// <summary>Decodes the noise take to a file, by the engine that delivers.</summary>
    public string Deliver(double sideLevelDecibels)
    {
        var target = _folder.File("delivered.wav");
        var report = DecodeJob.Run(new() { Inputs = [NoiseFile], Output = target, SideLevel = new Decibels(sideLevelDecibels), Overwrite = true, Threads = 1 }, CancellationToken.None);
        Assert.Null(Assert.Single(report.Takes).Error);
        return target;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var browser in _browsers.Values)
            await browser.DisposeAsync();
        _driver?.Dispose();
        if (_app is not null)
            await _app.DisposeAsync();
        _folder.Dispose();
    }

    /// <summary>Writes a two-channel file of integers.</summary>
    public static void Write(string path, double[] first, double[] second, int rate, SampleFormat format)
    {
        using var writer = WaveWriter.Create(path, new() { ChannelCount = 2, SampleRateHertz = rate, Format = format, Durable = false });
        PlanarBlock<int> steps = new(2, first.Length) { Length = first.Length };
        foreach (var (channel, samples) in new[] { (0, first), (1, second) })
        {
            for (var n = 0; n < samples.Length; n++)
                steps.Channel(channel)[n] = (int)Math.Round(samples[n] * (Math.ScaleB(1, format.ContainerBits - 1) - 1));
        }

        writer.Write(steps);
        writer.Complete();
    }

    public static double[] Tone(double hertz, double seconds, double amplitude, int rate = Rate) =>
        [.. Enumerable.Range(0, (int)(seconds * rate)).Select(n => amplitude * Math.Sin(2 * Math.PI * hertz * n / rate))];

    public static double[] RandomNoise(int frames, int seed, double level)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, frames).Select(_ => ((random.NextDouble() * 2) - 1) * level)];
    }

    private TakeId Add(string name, double[] mid, double[] side, int rate)
    {
        var card = Directory.CreateDirectory(Path.Combine(_folder.Path, "card-" + name)).FullName;
        Write(Path.Combine(card, name + ".wav"), mid, side, rate, SampleFormat.Int24);
        var folder = Path.Combine(_folder.Path, "library");
        new TakeInJob().Run(new() { Sources = [card], LibraryFolder = folder, SessionName = name, Date = new(2026, 5, 14) }, null, CancellationToken.None);
        using var library = Catalogue.Library.Open(folder, LibraryAccess.Write);
        return SessionLoader.Load(library, name, CancellationToken.None).Takes[0].Catalogued.Id;
    }

    private void AddFindings()
    {
        using var library = Catalogue.Library.Open(Path.Combine(_folder.Path, "library"), LibraryAccess.Write);
        library.ReplaceFindings(Noise,
        [
            new() { Kind = "wind", Severity = FindingSeverity.Caution, Message = "Wind in the side from 0:01.00.", Remedy = "Listen; a low cut may help.", Range = FrameRange.FromFrames(96_000, 144_000), Evidence = [new("level below 80 Hz", -21.5, "dBFS")] },
            new() { Kind = "flat-tops", Severity = FindingSeverity.Fault, Message = "The mid is clipped at 0:02.00.", Remedy = "Cut around it.", Range = FrameRange.FromFrames(192_000, 192_040) },
        ]);
    }
}

/// <summary>One desk and its browsers for all tests of sound: starting a browser costs more than a test.</summary>
[CollectionDefinition(nameof(SoundDesk))]
public sealed class SoundDeskTests : ICollectionFixture<SoundDesk>;
