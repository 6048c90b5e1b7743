using Athwart.Metering.Tests.Support;
using Athwart.Quantities;
using static Athwart.Metering.Tests.Faults.FaultSignals;

namespace Athwart.Metering.Tests;

/// <summary>Sound so high that it is cut from rail to rail, with hardly two equal samples in a row.</summary>
public class CeilingTests
{
    private const int Count = 3 * Tones.Rate;

    [Fact]
    public void HighNoiseThatIsCut_HasFlatTops()
    {
        var mid = High(361).Select(x => Math.Clamp(x, -0.5f, 0.5f)).ToArray();
        var finding = Assert.Single(Find(FindingKinds.FlatTops, mid, Ambience(Count, 0.01, 362)), f => f.Role == ChannelRole.Mid);
        Assert.Equal(-6.02, finding.Size!.Value, tolerance: 0.01);
    }

    [Fact]
    public void TheSameNoiseWhole_HasNone() => Assert.Empty(Find(FindingKinds.FlatTops, High(363), Ambience(Count, 0.01, 364)));

    [Theory]
    [InlineData(997)]
    [InlineData(15_000)]
    public void ASine_HasNone(double hertz) => Assert.Empty(Find(FindingKinds.FlatTops, Sine(Count, hertz, 0.5), Ambience(Count, 0.01, 365)));

    /// <summary>Noise by its second difference: most of it near half the sample rate.</summary>
    private static float[] High(int seed)
    {
        var noise = Ambience(Count + 2, 0.15, seed, 23_000);
        return [.. Enumerable.Range(0, Count).Select(i => noise[i] - (2 * noise[i + 1]) + noise[i + 2])];
    }
}
