using Athwart.Jobs.Cut;
using Athwart.Jobs.Render;
using Athwart.Jobs.Tests.Render;
using Athwart.Jobs.Verify;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.Deliver;

public sealed class DeliverJobTests : IDisposable
{
    private readonly SmallSession _session = new();

    [Fact]
    public void AFolderThatHoldsSomething_IsRefused_AndLeftAsItIs()
    {
        _session.Add("gate").TakeIn();
        Directory.CreateDirectory(_session.Folder);
        File.WriteAllText(Path.Combine(_session.Folder, "mine.txt"), "mine");
        var refused = Assert.Throws<JobException>(() => _session.Deliver());
        Assert.Equal(JobErrorKind.Refused, refused.Kind);
        Assert.Contains(_session.Folder, refused.Message, StringComparison.Ordinal);
        Assert.Equal("mine.txt", Path.GetFileName(Assert.Single(Directory.GetFileSystemEntries(_session.Folder))));
    }

    [Fact]
    public void AnEmptyFolder_IsUsed_AndADeliveryNeverGoesOverAnother()
    {
        _session.Add("gate").TakeIn();
        Directory.CreateDirectory(_session.Folder);
        _session.Deliver();
        Assert.True(VerifyJob.Run(new(_session.Folder), null, CancellationToken.None).IsSound);
        Assert.Throws<JobException>(() => _session.Deliver());
        Assert.True(VerifyJob.Run(new(_session.Folder), null, CancellationToken.None).IsSound);
    }

    [Fact]
    public void AnEffectThatWouldClip_IsRefused_WithTheTrimItNeeds_AndNothingIsDelivered()
    {
        _session.Add("boom", level: 1.1).Add("gate").TakeIn();
        var refused = Assert.Throws<RenderException>(() => _session.Deliver());
        Assert.Equal(RenderErrorKind.Overload, refused.Kind);
        Assert.True(refused.NeededTrim!.Value.Value < 0);
        Assert.Contains("'boom'", refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(".unfinished", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["card", "library"], Directory.GetFileSystemEntries(_session.Root).Select(Path.GetFileName).Order(StringComparer.Ordinal), StringComparer.Ordinal);

        var needed = refused.NeededTrim!.Value.Value;
        var tooLittle = Assert.Throws<RenderException>(() => _session.Deliver(_session.Request with { Trim = new(TrimKind.Gain, needed + 0.1) }));
        Assert.Equal(RenderErrorKind.Overload, tooLittle.Kind);
        Assert.Equal(2, _session.Deliver(_session.Request with { Trim = new(TrimKind.Gain, needed) }).Effects);
    }

    [Fact]
    public void WithACeiling_OnlyTheLoudEffectIsTrimmed()
    {
        _session.Add("boom", level: 1.1).Add("gate").TakeIn();
        var manifest = _session.Deliver(_session.Request with { Trim = new(TrimKind.Ceiling, -1) }).Manifest;
        Recipe Of(string effect) => RecipeFiles.Read(Path.Combine(_session.Folder, manifest.Files.Single(f => f.Kind == "recipe" && f.Effect == effect).Path));
        Assert.True(Of("boom").Treatment.TrimDecibels < 0);
        Assert.Equal(0, Of("gate").Treatment.TrimDecibels);
        Assert.InRange(manifest.Files.Single(f => f.Kind == "stereo" && f.Effect == "boom").TruePeakDbtp!.Value, -1.05, -1 + 0.02);
    }

    [Fact]
    public void NamesThatCollide_AreNumbered_AndNoFileIsLost()
    {
        _session.Add("gate").Add("GATE2", seed: 2).Add("boat", seed: 3).TakeIn();
        var report = _session.Deliver(_session.Request with { Template = "effect {kind}", Mono = true });
        Assert.Equal(3, report.Effects);
        Assert.Equal(report.Manifest.Files.Count, report.Manifest.Files.Select(f => f.Path.ToUpperInvariant()).Distinct(StringComparer.Ordinal).Count());

        // Three effects of five files each, the report and the table.
        Assert.Equal((3 * 5) + 2, report.Manifest.Files.Count);
        Assert.True(VerifyJob.Run(new(_session.Folder), null, CancellationToken.None).IsSound);
    }

    [Fact]
    public void CharactersThatNoFileNameMayHave_ArePutAside()
    {
        _session.Add("gate").TakeIn();
        _session.Cut("gate", "clang: a/b\\c?*\"<>| ../..");
        var report = _session.Deliver();
        foreach (var file in report.Manifest.Files)
        {
            Assert.Equal(file.Path, Path.GetFileName(file.Path));
            Assert.DoesNotMatch("[/\\\\:?*\"<>|]", file.Path);
        }

        Assert.Equal(report.Manifest.Files.Count + 1, Directory.GetFiles(_session.Folder).Length);
    }

    // Found when these tests were written: the delivery was refused with a broken rule of the recipe.
    [Theory]
    [InlineData(TrimKind.None, 0)]
    [InlineData(TrimKind.Ceiling, -1)]
    [InlineData(TrimKind.SamplePeak, -6)]
    public void ATakeOfOneChannel_IsDeliveredAsMono_AndNamesNoSide(TrimKind trim, double target)
    {
        _session.Add("spot", channels: 1).Add("gate", seed: 2).TakeIn();
        var report = _session.Deliver(_session.Request with { Trim = new(trim, target) });
        var spot = report.Manifest.Files.Where(f => f.Effect == "spot").ToList();
        Assert.Equal(["mono", "recipe"], spot.Select(f => f.Kind).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Equal(1, spot.Single(f => f.Kind == "mono").Channels);
        Assert.Equal(3, report.Manifest.Files.Count(f => f.Effect == "gate"));
        var recipe = Path.Combine(report.Folder, spot.Single(f => f.Kind == "recipe").Path);
        var gain = RecipeFiles.Read(recipe).Treatment.TrimGain;
        var raw = TestTakes.Steps(Path.Combine(_session.Card, "spot.wav"))[0];
        var mono = TestTakes.Steps(Path.Combine(report.Folder, spot.Single(f => f.Kind == "mono").Path))[0];
        if (trim == TrimKind.SamplePeak)
            Assert.All(raw.Zip(mono), p => Assert.InRange(p.Second - (gain * p.First), -1.5, 1.5));
        else
            Assert.Equal(raw, mono);
        Assert.True(RenderJob.Run(new() { RecipePath = recipe, OutputPath = Path.Combine(_session.Root, "again.wav") }, CancellationToken.None).IsSame);
        Assert.True(VerifyJob.Run(new(_session.Folder), null, CancellationToken.None).IsSound);
    }

    [Fact]
    public void FadesOfACut_LieInsideIt_AndTheRawPairHasNone()
    {
        _session.Add("gate").TakeIn();
        _session.Cut("gate", "clang", from: TakePlace.AtFrame(1000), to: TakePlace.AtFrame(5000), fadeSeconds: 0.01);
        var report = _session.Deliver();
        var raw = TestTakes.Steps(Path.Combine(_session.Card, "gate.wav"));
        var pair = TestTakes.Steps(Path.Combine(_session.Folder, report.Manifest.Files.Single(f => f.Kind == "midside").Path));
        var stereo = TestTakes.Steps(Path.Combine(_session.Folder, report.Manifest.Files.Single(f => f.Kind == "stereo").Path));
        Assert.Equal(raw[0][1000..5000], pair[0]);
        Assert.Equal(raw[1][1000..5000], pair[1]);
        Assert.InRange(stereo[0][0], -4, 4);

        // Behind the fade's 480 frames the mono fold is the mid to the bit again.
        Assert.Equal(raw[0][1480..5000], Enumerable.Range(480, 3520).Select(n => (stereo[0][n] + stereo[1][n]) / 2));
    }

    [Fact]
    public void AnEffectThatIsNotThere_IsNamed()
    {
        _session.Add("gate").TakeIn();
        _session.Cut("gate", "clang", CutSource.Whole);
        Assert.Contains("'bell'", Assert.Throws<JobException>(() => _session.Deliver(_session.Request with { Effects = ["bell"] })).Message, StringComparison.Ordinal);
        Assert.Contains("'boat'", Assert.Throws<JobException>(() => _session.Deliver(_session.Request with { Takes = ["boat"] })).Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.Folder));
    }

    [Fact]
    public async Task TwoDeliveriesIntoOneFolderAtOnce_OneIsWholeAndTheOtherRefused()
    {
        for (var n = 0; n < 6; n++)
            _session.Add($"gate{n}", frames: 96_000, seed: n);
        _session.TakeIn();
        for (var round = 0; round < 3; round++)
        {
            var request = SmallSession.RequestFor(_session.Library, Path.Combine(_session.Root, "shared " + round));
            using var start = new Barrier(2);
            var outcomes = await Task.WhenAll(Enumerable.Range(0, 2).Select(_ => Task.Run(() =>
            {
                start.SignalAndWait();
                return Record.Exception(() => _session.Deliver(request));
            })));
            Assert.Null(Assert.Single(outcomes, e => e is null));
            Assert.Equal(JobErrorKind.Refused, Assert.IsType<JobException>(outcomes.Single(e => e is not null)).Kind);
            Assert.True(VerifyJob.Run(new(request.Folder), null, CancellationToken.None).IsSound);
        }

        Assert.Empty(Directory.GetFileSystemEntries(_session.Root, ".*"));
    }

    [Theory]
    [InlineData(96_000, OutputWord.Signed24)]
    [InlineData(44_100, OutputWord.Signed16)]
    [InlineData(48_000, OutputWord.Signed16)]
    public void AnotherRateAndAShorterWord_LeaveTheRawPairAsRecorded_AndTheRecipeRepeats(int rate, OutputWord word)
    {
        _session.Add("gate", frames: 48_000, markers: [new(24_000, 0, "clank", "")]).TakeIn();
        var report = _session.Deliver(_session.Request with { SampleRateHertz = rate, Word = word });
        var files = report.Manifest.Files;
        var stereo = files.Single(f => f.Kind == "stereo");
        Assert.Equal((rate, word.Name(), rate), (stereo.SampleRateHertz!.Value, stereo.Word, (int)stereo.Frames!.Value));
        var raw = TestTakes.Steps(Path.Combine(_session.Card, "gate.wav"));
        var pair = TestTakes.Steps(Path.Combine(report.Folder, files.Single(f => f.Kind == "midside").Path));
        Assert.Equal(raw[0], pair[0]);
        Assert.Equal(raw[1], pair[1]);
        using (var file = RecordingFile.Open(Path.Combine(report.Folder, stereo.Path)))
            Assert.Equal(rate / 2, Assert.Single(file.Markers).Frame);
        var recipe = Path.Combine(report.Folder, files.Single(f => f.Kind == "recipe").Path);
        Assert.True(RenderJob.Run(new() { RecipePath = recipe, OutputPath = Path.Combine(_session.Root, "again.wav") }, CancellationToken.None).IsSame);
        Assert.True(VerifyJob.Run(new(report.Folder), null, CancellationToken.None).IsSound);
    }

    // Found by reading: the report of an effect without steps told nothing of what only a search of faults finds.
    [Fact]
    public void TheReportOfAnEffectAsRecorded_TellsItsFaults_AsThatOfATreatedOneDoes()
    {
        Directory.CreateDirectory(_session.Card);
        const int Frames = 96_000;
        using (var writer = WaveWriter.Create(Path.Combine(_session.Card, "gate.wav"), new() { ChannelCount = 2, SampleRateHertz = 48_000, Format = SampleFormat.Int24, Durable = false }))
        {
            var (block, random) = (new PlanarBlock<int>(2, Frames) { Length = Frames }, new Random(3));
            for (var n = 0; n < Frames; n++)
            {
                block.Channel(0)[n] = (int)(20_000 * (random.NextDouble() - 0.5));
                block.Channel(1)[n] = (int)(20_000 * (random.NextDouble() - 0.5)) + (n == 48_000 ? 2_000_000 : 0);
            }

            writer.Write(block);
            writer.Complete();
        }

        _session.TakeIn();
        foreach (var treatment in new[] { null, "Water" })
        {
            var report = _session.Deliver(_session.Request with { Folder = Path.Combine(_session.Root, "to " + treatment), Treatment = treatment });
            Assert.Contains("click", File.ReadAllText(report.ReportPath), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void AHintToTheCeiling_IsGivenOnlyWhereAnEffectIsTooLoud()
    {
        _session.Add("boom", level: 1.1).TakeIn();
        Assert.Contains("--ceiling", Assert.Throws<RenderException>(() => _session.Deliver()).Message, StringComparison.Ordinal);
        var other = Assert.Throws<RenderException>(() => _session.Deliver(_session.Request with { Trim = new(TrimKind.Gain, 2000) }));
        Assert.DoesNotContain("--ceiling", other.Message, StringComparison.Ordinal);
    }

    public void Dispose() => _session.Dispose();
}
