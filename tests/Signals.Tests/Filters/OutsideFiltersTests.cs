using System.Numerics;
using Athwart.Signals.Filters;
using NWaves.Filters.Base;
using NWaves.Filters.BiQuad;

namespace Athwart.Signals.Tests.Filters;

/// <summary>Against NWaves 0.9.6, whose sections are bilinear and have single-precision coefficients.</summary>
/// <remarks>
/// Two things are to be known of it. The bilinear transform bends frequencies (tan(πf/rate) for πf/rate), so it is compared far below the
/// rate only. And what its shelves call q is the shelf slope S of the audio equaliser formulas, not their Q:
/// 1/Q² = (A + 1/A)·(1/S − 1) + 2, A = 10^(dB/40). Read as a Q, a shelf of 100 Hz, +6 dB, 0.7 lies half a decibel beside the prototype at
/// 384 kHz. Corners that low are not compared: there 1 + a1 + a2 is (2πf/rate)² = 2.7e-6 of numbers near 2, and rounding them to float alone
/// moves a filter by up to 0.3 dB.
/// </remarks>
public sealed class OutsideFiltersTests
{
    private const double Steepness = 0.7;

    [Theory]
    [InlineData(48_000, 240, 0.02), InlineData(96_000, 480, 0.02), InlineData(384_000, 1920, 0.02)]
    public void ShelvesAndBells_FarBelowTheRate_AreThoseOfNWaves(int rate, double corner, double tolerance)
    {
        foreach (var gain in (double[])[-9, -3, 6])
        {
            var q = 1 / Math.Sqrt(((Math.Pow(10, gain / 40) + Math.Pow(10, -gain / 40)) * ((1 / Steepness) - 1)) + 2);
            Compare(AnalogueSection.LowShelf(corner, gain, q), new LowShelfFilter(corner / rate, Steepness, gain), rate, tolerance);
            Compare(AnalogueSection.HighShelf(corner, gain, q), new HighShelfFilter(corner / rate, Steepness, gain), rate, tolerance);
            Compare(AnalogueSection.Bell(corner, gain, Steepness), new PeakFilter(corner / rate, Steepness, gain), rate, tolerance);
        }
    }

    [Fact]
    public void AShelfWhoseSlopeIsReadAsQ_LiesHalfADecibelBeside()
    {
        var theirs = new LowShelfFilter(1000 / 384_000.0, Steepness, 6).Tf;
        var ours = MatchedDesign.Sections(AnalogueSection.LowShelf(1000, 6, Steepness), 384_000);
        var apart = Steps(1000, 384_000).Max(hertz => Math.Abs(Ours(ours, hertz, 384_000) - Theirs(theirs, hertz, 384_000)));
        Assert.InRange(apart, 0.4, 0.7);
    }

    private static void Compare(AnalogueSection prototype, BiQuadFilter filter, int rate, double tolerance)
    {
        var ours = MatchedDesign.Sections(prototype, rate);
        foreach (var hertz in Steps(prototype.FrequencyHertz, rate))
        {
            var apart = Ours(ours, hertz, rate) - Theirs(filter.Tf, hertz, rate);
            Assert.True(Math.Abs(apart) <= tolerance, $"{prototype} at {hertz} Hz: {apart} dB apart");
        }
    }

    private static IEnumerable<double> Steps(double corner, int rate)
    {
        for (var hertz = corner / 20; hertz < rate / 60.0; hertz *= 1.1)
            yield return hertz;
    }

    private static double Ours(IReadOnlyList<BiquadCoefficients> sections, double hertz, int rate) => sections.Sum(s => 20 * Math.Log10(s.AmplitudeRatioAt(hertz, rate)));

    private static double Theirs(TransferFunction filter, double hertz, int rate)
    {
        var z = Complex.FromPolarCoordinates(1, -2 * Math.PI * hertz / rate);
        Complex Of(float[] c) => c[0] + (c[1] * z) + (c[2] * z * z);
        return 20 * Math.Log10(Complex.Abs(Of([.. filter.Numerator.Select(x => (float)x)]) / Of([.. filter.Denominator.Select(x => (float)x)])));
    }
}
