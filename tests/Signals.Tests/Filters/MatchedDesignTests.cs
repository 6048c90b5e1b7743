using Athwart.Signals.Filters;

namespace Athwart.Signals.Tests.Filters;

// The limit of 0.1 dB to 0.9 of half the rate at 48 kHz is the project's own; the prototypes are the audio equaliser formulas (from memory).
public sealed class MatchedDesignTests
{
    private const double Limit = 0.1;

    [Fact]
    public void Bells_AnyCentreQAndGainAt48kHz_FollowTheAnalogueOneWithin0_1Decibels() => Grid(AnalogueSection.Bell, 48000, Limit);

    [Fact]
    public void LowShelves_AnyCornerQAndGainAt48kHz_FollowTheAnalogueOneWithin0_1Decibels() => Grid(AnalogueSection.LowShelf, 48000, Limit);

    [Fact]
    public void HighShelves_AnyCornerQAndGainAt48kHz_FollowTheAnalogueOneWithin0_1Decibels() => Grid(AnalogueSection.HighShelf, 48000, Limit);

    [Theory]
    [InlineData(44100), InlineData(88200), InlineData(96000), InlineData(192000)]
    public void Bells_AtOtherRates_FollowTheAnalogueOneWithin0_1Decibels(int rate) => Grid(AnalogueSection.Bell, rate, Limit);

    // 48 dB an octave is eight orders; every section may take its part of the limit.
    [Fact]
    public void Cuts_AnyCutoffAndSlope_FollowTheAnalogueOnesWithin0_1Decibels()
    {
        for (var order = 1; order <= 8; order++)
        {
            for (var hertz = 20.0; hertz < 20001; hertz *= Math.Pow(10, 0.1))
            {
                Worst(AnalogueSection.ButterworthLowCut(hertz, order), 48000, Limit);
                Worst(AnalogueSection.ButterworthHighCut(hertz, order), 48000, Limit);
            }
        }
    }

    [Theory]
    [InlineData(1), InlineData(2), InlineData(5), InlineData(8)]
    public void ButterworthPrototypes_OfAnyOrder_AreMaximallyFlat(int order)
    {
        // |H|² = 1 / (1 + (f/f₀)^2n), the definition.
        foreach (var place in new[] { 0.1, 0.5, 1, 2, 10.0 })
        {
            Assert.Equal(1 / Math.Sqrt(1 + Math.Pow(place, 2 * order)), Product(AnalogueSection.ButterworthHighCut(100, order), 100 * place), 1e-12);
            Assert.Equal(1 / Math.Sqrt(1 + Math.Pow(place, -2 * order)), Product(AnalogueSection.ButterworthLowCut(100, order), 100 * place), 1e-12);
        }
    }

    [Fact]
    public void Bell_CentreAndHalfGainPlaces_AreWhereQPutsThem()
    {
        var bell = AnalogueSection.Bell(1000, 12, 2);
        Assert.Equal(12, Decibels(bell.AmplitudeRatioAt(1000)), 1e-9);
        // f₂ − f₁ = f₀/Q about the geometric mean.
        var upper = 1000 * ((1 / 4.0) + Math.Sqrt(1 + (1 / 16.0)));
        Assert.Equal(6, Decibels(bell.AmplitudeRatioAt(upper)), 1e-9);
        Assert.Equal(6, Decibels(bell.AmplitudeRatioAt(1e6 / upper)), 1e-9);
    }

    [Fact]
    public void Sections_Everywhere_AreStableAndOfMinimumPhase()
    {
        foreach (var (hertz, gain, q) in Settings())
        {
            foreach (var prototype in new[] { AnalogueSection.Bell(hertz, gain, q), AnalogueSection.LowShelf(hertz, gain, q), AnalogueSection.HighShelf(hertz, gain, q) })
            {
                foreach (var c in MatchedDesign.Sections(prototype, 48000))
                {
                    Assert.True(Math.Abs(c.A2) < 1 && Math.Abs(c.A1) < 1 + c.A2, $"{prototype}: {c}");
                    Assert.True(Math.Abs(c.B2 / c.B0) <= 1 && Math.Abs(c.B1 / c.B0) <= 1 + (c.B2 / c.B0) + 1e-12, $"{prototype}: {c}");
                }
            }
        }
    }

    private static void Grid(Func<double, double, double, AnalogueSection> kind, int rate, double limit)
    {
        foreach (var (hertz, gain, q) in Settings())
            Worst([kind(hertz, gain, q)], rate, limit);
    }

    private static IEnumerable<(double Hertz, double Gain, double Q)> Settings()
    {
        double[] high = [8000, 12500, 14142, 17000, 18500, 19333, 20000];
        double[] low = [20, 47, 150, 470, 1000, 2200, 4700];
        return from hertz in low.Concat(high)
               from gain in new[] { -18.0, -9, -3, 1, 6, 12, 18 }
               from q in new[] { 0.3, 0.5, 0.7071, 1, 1.5, 2.3, 4.4, 10 }
               select (hertz, gain, q);
    }

    private static void Worst(IReadOnlyList<AnalogueSection> prototype, int rate, double limit)
    {
        var sections = prototype.SelectMany(p => MatchedDesign.Sections(p, rate)).ToList();
        var hertz0 = prototype[0].FrequencyHertz;
        var places = Enumerable.Range(1, 90).Select(k => k * 0.9 * rate / 2 / 90).Concat(Enumerable.Range(-20, 41).Select(k => hertz0 * Math.Pow(2, k / 10.0))).Where(f => f <= 0.9 * rate / 2);
        foreach (var f in places)
        {
            var difference = Decibels(sections.Aggregate(1.0, (g, c) => g * c.AmplitudeRatioAt(f, rate))) - Decibels(Product(prototype, f));
            Assert.True(Math.Abs(difference) <= limit, $"{prototype[0]} at {f} Hz: {difference} dB off with {sections.Count} sections");
        }
    }

    private static double Product(IEnumerable<AnalogueSection> sections, double hertz) => sections.Aggregate(1.0, (g, s) => g * s.AmplitudeRatioAt(hertz));

    private static double Decibels(double ratio) => 20 * Math.Log10(ratio);
}
