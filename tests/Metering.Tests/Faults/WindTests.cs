using Athwart.Metering.Faults;
using Athwart.Metering.Tests.Support;
using Athwart.Quantities;
using static Athwart.Metering.Tests.Faults.FaultSignals;

namespace Athwart.Metering.Tests.Faults;

public class WindTests
{
    private const int Count = 16 * Tones.Rate;

    [Fact]
    public void GustsInTheSideAlone_AreWindThatALowCutOnTheSideSaves()
    {
        var side = Ambience(Count, 0.01, 21).Plus(Gusts(0.05, 22));
        var finding = Assert.Single(Find(FaultKinds.Wind, Ambience(Count, 0.02, 23), side));
        Assert.Equal(ChannelRole.Side, finding.Role);
        Assert.Contains("side alone saves it", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void GustsInBoth_AreWindOfThePair()
    {
        var finding = Assert.Single(Find(FaultKinds.Wind, Ambience(Count, 0.02, 24).Plus(Gusts(0.04, 25)), Ambience(Count, 0.01, 26).Plus(Gusts(0.05, 27))));
        Assert.Null(finding.Role);
        Assert.Contains("does not save it", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void TheSameGustsInBoth_AreSoundAndNoWind()
    {
        var gusts = Gusts(0.05, 28);
        Assert.Empty(Find(FaultKinds.Wind, Ambience(Count, 0.005, 29).Plus(gusts), Ambience(Count, 0.002, 30).Plus(gusts.Times(0.5))));
    }

    [Fact]
    public void SteadyLowNoise_IsNoWind() => Assert.Empty(Find(FaultKinds.Wind, Ambience(Count, 0.05, 31, 8), Ambience(Count, 0.05, 32, 8)));

    [Fact]
    public void AThump_IsFoundInItsPlace()
    {
        var mid = Ambience(Count, 0.01, 33);
        for (var i = 0; i < 4800; i++)
            mid[200_000 + i] += (float)(0.3 * Math.Sin(2 * Math.PI * 30 * i / Tones.Rate) * Math.Sin(Math.PI * i / 4800) * Math.Sin(Math.PI * i / 4800));
        var finding = Assert.Single(Find(FaultKinds.Handling, mid, Ambience(Count, 0.01, 34)));
        Assert.Equal(ChannelRole.Mid, finding.Role);
        Assert.InRange(finding.Range!.Value.From.Value, 180_000, 203_000);
        Assert.InRange(finding.Range!.Value.To.Value, 202_000, 225_000);
    }

    [Fact]
    public void ABassThatOneChannelHasAlone_IsNoWind()
    {
        // Lines of 41 and 55 Hz in turns of a second: low, not shared, in gusts, but no noise.
        var side = Ambience(Count, 0.002, 41);
        for (var i = 0; i < Count; i++)
            side[i] += (float)(0.1 * Math.Pow(10, -1 + Math.Sin(2 * Math.PI * i / (4.0 * Tones.Rate))) * Math.Sin(2 * Math.PI * (i / Tones.Rate % 2 == 0 ? 41 : 55) * i / Tones.Rate));
        Assert.Empty(Find(FaultKinds.Wind, Ambience(Count, 0.002, 42), side));
    }

    [Fact]
    public void ADoorThatBangs_IsAtMostANote()
    {
        var (mid, side) = (Ambience(Count, 0.002, 43), Ambience(Count, 0.002, 44));
        for (var i = 0; i < 14_400; i++)
            mid[200_000 + i] += (float)(0.8 * Math.Exp(-i / 3000.0) * Math.Sin(2 * Math.PI * 35 * i / Tones.Rate));
        AddClap(mid, 200_000, 0.1, 0.01, 45);
        AddClap(side, 200_000, 0.05, 0.01, 46);
        Assert.DoesNotContain(Find(FaultKinds.Handling, mid, side), f => f.Severity > FindingSeverity.Note);
    }

    /// <summary>Noise that falls as f^(−7/3) or so above 8 Hz, in gusts of 2 s that come and go by 20 dB.</summary>
    private static float[] Gusts(double rms, int seed)
    {
        var noise = Ambience(Count, rms, seed, 8);
        return [.. noise.Select((x, i) => (float)(x * Math.Pow(10, -1 + Math.Sin(2 * Math.PI * i / (4.0 * Tones.Rate)))))];
    }
}
