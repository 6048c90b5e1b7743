using Athwart.Signals.Loops;
using CsCheck;

namespace Athwart.Signals.Tests.Loops;

public sealed class LoopTests
{
    private static readonly Gen<(long Frame, LoopSeam Seam)> Places =
        Gen.Select(Gen.Long[1, 200_000], Gen.Double[0, 1], Gen.Double[0, 0.999999]).Select((length, correlation, part) => ((long)(part * length), new LoopSeam(length, correlation)));

    [Fact]
    public void ThePowerOfSoundsAsAlikeAsMeasured_StaysTheSame() => Places.Sample(place =>
    {
        var (a, b) = LoopCrossfade.Gains(place.Frame, place.Seam);
        Assert.Equal(1, (a * a) + (b * b) + (2 * place.Seam.Correlation * a * b), 1e-12);
    });

    [Fact]
    public void SoundsThatAreTheSame_AreFadedAtConstantGain_AndStrangersAtConstantPower() => Places.Sample(place =>
    {
        var (a, b) = LoopCrossfade.Gains(place.Frame, place.Seam with { Correlation = 1 });
        Assert.Equal(1, a + b, 1e-12);
        (a, b) = LoopCrossfade.Gains(place.Frame, place.Seam with { Correlation = 0 });
        Assert.Equal(1, (a * a) + (b * b), 1e-12);
    });

    [Fact]
    public void ASoundBlendedWithItself_IsItself()
    {
        var tone = Enumerable.Range(0, 1000).Select(n => Math.Sin(n * 0.1)).ToArray();
        var blended = tone.ToArray();
        LoopCrossfade.Blend(blended, tone, 0, new(1000, 1));
        Assert.All(tone.Zip(blended), pair => Assert.Equal(pair.First, pair.Second, 1e-12));
    }

    [Fact]
    public void Correlation_IsOneForTheSame_MinusOneForTheInverse_AndZeroForSilence()
    {
        var tone = Enumerable.Range(0, 480).Select(n => Math.Sin(2 * Math.PI * n / 48)).ToArray();
        var other = Array.ConvertAll(tone, x => -x);
        Assert.Equal(1, LoopCrossfade.Correlation(tone, tone, tone, tone), 1e-12);
        Assert.Equal(-1, LoopCrossfade.Correlation(tone, tone, other, other), 1e-12);
        Assert.Equal(0, LoopCrossfade.Correlation(tone, tone, new double[480], new double[480]));
        Assert.Equal(0, LoopCrossfade.Correlation([], [], [], []));
    }

    [Fact]
    public void TheSearch_FindsThePlacesWhereALevelComesBack()
    {
        // A level that climbs for good but for one step, 100 to 110, that looks like 20 to 30.
        var levels = Enumerable.Range(0, 150).Select(i => i is >= 95 and < 115 ? -60f + (i - 75) : -60f + i + (i >= 95 ? 30 : 0)).ToArray();
        var best = LoopSearch.Find(levels, 1, 5, 30, 3)[0];
        Assert.Equal(75, best.To - best.From);
    }

    [Fact]
    public void ATakeTooShort_HasNoLoop()
    {
        Assert.Empty(LoopSearch.Find(new float[10], 1, 5, 5, 3));
        Assert.Empty(LoopSearch.Find([], 1, 1, 1, 1));
    }
}
