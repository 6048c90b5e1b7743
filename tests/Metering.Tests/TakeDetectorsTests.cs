using Athwart.Metering.Tests.Support;
using Athwart.Quantities;
using Athwart.Tests.Shared;
using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

public class TakeDetectorsTests
{
    private static float[] GoodMid => Noise(144_000, 0.2, 1);

    private static float[] GoodSide => Noise(144_000, 0.1, 2);

    [Fact]
    public void AGoodTake_HasNoFindings() => Assert.Empty(Kinds(GoodMid, GoodSide));

    [Fact]
    public void AnEmptyTake_HasNoFindings() => Assert.Empty(Kinds([], []));

    [Theory]
    [InlineData(3, FindingSeverity.Caution)]
    [InlineData(4, FindingSeverity.Fault)]
    public void FullScaleRuns_OfThreeAreDoubted_OfFourSure(int length, FindingSeverity severity)
    {
        var mid = GoodMid;
        mid.AsSpan(48_000, length).Fill((float)(1 - Math.ScaleB(1, -23)));
        var finding = Assert.Single(Find(mid, GoodSide.Times(0.001)), f => f.Kind == FindingKinds.FullScaleRuns);
        Assert.Equal((severity, ChannelRole.Mid, FrameRange.FromFrames(48_000, 48_000 + length)), (finding.Severity, finding.Role, finding.Range));
        Assert.Contains("0:01.00", finding.Message, StringComparison.Ordinal);
        Assert.NotEmpty(finding.Remedy);
    }

    [Fact]
    public void TwoSamplesAtFullScale_AreNoFinding()
    {
        var mid = GoodMid;
        mid.AsSpan(48_000, 2).Fill((float)(1 - Math.ScaleB(1, -23)));
        Assert.DoesNotContain(FindingKinds.FullScaleRuns, Kinds(mid, GoodSide), StringComparer.Ordinal);
    }

    [Fact]
    public void ManyPlaces_AreListedUpToALimit_AndTheRestCounted()
    {
        var mid = GoodMid;
        for (var at = 1_000; at < mid.Length; at += 9_000)
            mid.AsSpan(at, 6).Fill(-1);
        var found = Find(mid, GoodSide).Where(f => f.Kind == FindingKinds.FullScaleRuns).ToList();
        Assert.Equal(TakeDetectors.MostOfAKind, found.Count);
        Assert.Contains("11 more places", found[^1].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FlatTops_BelowFullScale_AreAFault()
    {
        var mid = Array.ConvertAll(Steps(Rate, 300, (3, -1)), x => Math.Clamp(x, -0.4f, 0.4f)).Rounded(24);
        var finding = Assert.Single(Find(mid, GoodSide), f => f.Kind == FindingKinds.FlatTops);
        Assert.Equal(FindingSeverity.Fault, finding.Severity);
        Assert.Equal(20 * Math.Log10(0.4), finding.Size!.Value, 0.01);
    }

    [Fact]
    public void FloatingPointOvers_AreANote()
    {
        var mid = GoodMid;
        mid[500] = 1.2f;
        var finding = Assert.Single(Find(mid, GoodSide, bits: 0), f => f.Kind == FindingKinds.FloatOvers);
        Assert.Equal((FindingSeverity.Note, ChannelRole.Mid), (finding.Severity, finding.Role));
    }

    [Fact]
    public void OverloadAfterDecodingOnly_NamesTheTrim()
    {
        var tone = Steps(Rate, 1000, (3, -1));
        var finding = Assert.Single(Find(tone, tone.Times(0.5).Plus(Noise(tone.Length, 0.05, 3))), f => f.Kind == FindingKinds.DecodedOverload);
        Assert.Equal(ChannelRole.Left, finding.Role);
        Assert.InRange(finding.Size!.Value, 2.4, 3.2);
        Assert.Contains("trim of −", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void ASideThatIsZero_OrConstant_OrHissOnly_IsDead()
    {
        foreach (var side in (float[][])[new float[144_000], [.. Enumerable.Repeat(0.01f, 144_000)], Noise(144_000, 2e-5, 4)])
        {
            var finding = Assert.Single(Find(GoodMid, side), f => f.Severity == FindingSeverity.Fault);
            Assert.Equal((FindingKinds.DeadChannel, ChannelRole.Side), (finding.Kind, finding.Role));
        }
    }

    [Fact]
    public void TheSameChannelTwice_IsIdentical_AndInvertedToo()
    {
        Assert.Contains(FindingKinds.IdenticalChannels, Kinds(GoodMid, GoodMid), StringComparer.Ordinal);
        var inverted = Assert.Single(Find(GoodMid, GoodMid.Times(-1)), f => f.Kind == FindingKinds.IdenticalChannels);
        Assert.Contains("inverted", inverted.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ACopyAt6DecibelsDown_RoundedTo16Bits_IsAScaledCopy()
    {
        var finding = Assert.Single(Find(GoodMid.Rounded(16), GoodMid.Times(0.5).Rounded(16), bits: 16), f => f.Kind == FindingKinds.ScaledCopy);
        Assert.Equal(-6.02, finding.Size!.Value, 0.01);
    }

    [Fact]
    public void ASilentTake_IsOneFinding()
    {
        Assert.Equal([FindingKinds.SilentTake], Kinds(new float[144_000], new float[144_000]), StringComparer.Ordinal);
        Assert.Equal([FindingKinds.SilentTake], Kinds(Noise(144_000, 5e-5, 5), Noise(144_000, 5e-5, 6)), StringComparer.Ordinal);
    }

    [Fact]
    public void ADropout_IsACaution_AndZerosAtTheEndANote()
    {
        var (mid, side) = (GoodMid, GoodSide);
        mid.AsSpan(48_000, 4_800).Clear();
        side.AsSpan(48_000, 4_800).Clear();
        mid.AsSpan(134_400).Clear();
        side.AsSpan(134_400).Clear();
        var found = Find(mid, side).Where(f => f.Kind == FindingKinds.DigitalSilence).ToList();
        Assert.Equal([FindingSeverity.Caution, FindingSeverity.Note], found.Select(f => f.Severity));
        Assert.Equal(0.1, found[0].Size!.Value, 1e-9);
        Assert.All(found, f => Assert.Null(f.Role));
    }

    [Fact]
    public void ASteadyOffset_IsFound_AndLowFrequencySoundIsNot()
    {
        Assert.Contains(FindingKinds.DcOffset, Kinds(GoodMid.Plus([.. Enumerable.Repeat(0.005f, 144_000)]), GoodSide), StringComparer.Ordinal);
        Assert.DoesNotContain(FindingKinds.DcOffset, Kinds(GoodMid.Plus(Steps(Rate, 3.1, (3, -12))), GoodSide), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(-30, FindingKinds.SideWeak)]
    [InlineData(12, FindingKinds.SideStrong)]
    public void ALopsidedBalance_IsNoted(double decibels, string kind) =>
        Assert.Contains(kind, Kinds(GoodMid.Times(0.2), GoodMid.Reverse().ToArray().Times(0.2 * Math.Pow(10, decibels / 20))), StringComparer.Ordinal);

    [Fact]
    public void ASideLouderThanTheMid_IsOutOfPhase_AndAPassageIsLowCorrelation()
    {
        Assert.Contains(FindingKinds.OutOfPhase, Kinds(GoodMid.Times(0.3), GoodSide), StringComparer.Ordinal);
        var mid = GoodMid;
        for (var i = 48_000; i < 72_000; i++)
            mid[i] *= 0.1f;
        var finding = Assert.Single(Find(mid, GoodSide), f => f.Kind == FindingKinds.LowCorrelation);
        Assert.InRange(finding.Range!.Value.From.Value, 48_000, 53_000);
    }

    [Fact]
    public void RealRecordings_RaiseNoFalseAlarm()
    {
        // Judged by ear and by the waveform of what is reported: none of these is clipped, dead, copied or offset. Some begin or end
        // in exact zeros, some were low-passed, and vinyl_hiss is out of phase as it stands (docs/sources.md#real-audio).
        string[] never =
        [
            FindingKinds.FullScaleRuns, FindingKinds.FlatTops, FindingKinds.DeadChannel, FindingKinds.IdenticalChannels,
            FindingKinds.ScaledCopy, FindingKinds.DcOffset, FindingKinds.NotFinite, FindingKinds.SilentTake, FindingKinds.FloatOvers,
        ];
        foreach (var name in RealStereo.Names)
        {
            var findings = TakeDetectors.Find(RealStereo.Measure(name));
            Assert.True(!findings.Any(f => never.Contains(f.Kind)), name + ": " + string.Join("; ", findings.Select(f => f.Message)));
        }
    }

    [Fact]
    public void RealRecordings_FalseStereoIsSeen()
    {
        // loop_amen_full is dual mono: its side is nothing.
        Assert.Contains(FindingKinds.DeadChannel, TakeDetectors.Find(RealStereo.Measure("loop_amen_full")).Select(f => f.Kind), StringComparer.Ordinal);
    }

    [Fact]
    public void EveryFinding_OfEveryRealRecording_IsPrintable()
    {
        var folder = ReferenceProgram.RequirePath("/usr/share/sonic-pi/samples");
        var lines = new List<string>();
        foreach (var path in Directory.EnumerateFiles(folder, "*.flac").Order(StringComparer.Ordinal).Where((_, i) => i % 12 == 0))
        {
            foreach (var f in TakeDetectors.Find(RealStereo.Measure(Path.GetFileNameWithoutExtension(path))))
                lines.Add($"{Path.GetFileNameWithoutExtension(path)}: {f.Kind} {f.Severity} {f.Message} {f.Remedy}");
        }

        TestContext.Current.TestOutputHelper?.WriteLine(string.Join('\n', lines));
        Assert.All(lines, l => Assert.DoesNotContain("NaN", l, StringComparison.Ordinal));
    }

    private static IReadOnlyList<Finding> Find(float[] mid, float[] side, int bits = 24) => TakeDetectors.Find(Take(mid, side, bits: bits));

    private static IEnumerable<string> Kinds(float[] mid, float[] side) => Find(mid, side).Select(f => f.Kind);
}
