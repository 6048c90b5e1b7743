using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>A pair in one third-octave band.</summary>
/// <param name="Frequency">The exact middle of the band, 1000·10^(n/10) Hz.</param>
/// <param name="SideLevel">gS/gM with the low ends of both taken in.</param>
/// <param name="MidLoss">What the mid's own low end loses, 0 dB or less.</param>
/// <param name="Coverage">At the asked threshold; null when it is never reached.</param>
/// <param name="Correlation">In a diffuse field; null when both are silent.</param>
/// <param name="MidDirectivity">Directivity index of the mid.</param>
/// <param name="IncludedAngle">Of the virtual pair.</param>
public sealed record PairBand(
    Hertz Frequency,
    Decibels SideLevel,
    Decibels MidLoss,
    Degrees? Coverage,
    double? Correlation,
    Decibels MidDirectivity,
    Degrees IncludedAngle);

/// <summary>Where the low ends of mid and side are 3 dB down; null where not known, and then taken as flat.</summary>
/// <param name="Mid">Of the mid.</param>
/// <param name="Side">Of the side; a figure-8 falls away earlier than an omni, being a velocity microphone.</param>
public readonly record struct LowEnds(Hertz? Mid, Hertz? Side);

/// <summary>A pair by third-octave bands, with what that means in plain words.</summary>
/// <param name="Bands">Lowest first.</param>
/// <param name="Statements">Whole sentences without a full stop; empty when the pair is the same at every frequency.</param>
/// <remarks>
/// A low end is taken as a first-order high-pass, |H| = 1/√(1 + (f₃/f)²), −3 dB at f₃: how most microphones begin to fall; the
/// turn of phase between the two is left out, so around the corner the image is less sharp than said. Bands: IEC 61260-1, base ten.
/// </remarks>
public sealed record PairOverFrequency(IReadOnlyList<PairBand> Bands, IReadOnlyList<string> Statements)
{
    /// <summary>The side counts as gone when it is this much lower against the mid than where both are flat: 6 dB. A choice of ours.</summary>
    public const double NarrowsDecibels = 6;

    /// <summary>The mid counts as beaming when its directivity index is this much above that at 1 kHz: 2 dB. A choice of ours.</summary>
    public const double BeamsDecibels = 2;

    /// <summary>Below it nothing is heard, and nothing said.</summary>
    private const double LowestHeard = 20;

    private const int LowestBand = -17;
    private static readonly Hertz Reference = new(1000);

    /// <summary>The bands from 20 Hz up to a highest frequency, 20 kHz unless said.</summary>
    public static PairOverFrequency Of(MidSidePair pair, LowEnds lowEnds, Decibels threshold, Hertz? highest = null)
    {
        ArgumentNullException.ThrowIfNull(pair);
        CheckLow(lowEnds.Mid, "mid");
        CheckLow(lowEnds.Side, "side");
        var top = (int)Math.Round(10 * Math.Log10((highest ?? new(20_000)).Value / 1000));
        var bands = Enumerable.Range(LowestBand, Math.Max(0, top - LowestBand + 1))
            .Select(n => Band(pair, lowEnds, threshold, new(1000 * Math.Pow(10, n / 10.0)))).ToList();
        return new(bands, [.. LowStatements(lowEnds), .. HighStatements(pair, bands)]);
    }

    /// <summary>|H| of a low end at a frequency, 1 where it is not known.</summary>
    public static double LowEndGain(Hertz? corner, Hertz frequency)
        => corner is { } low ? 1 / Math.Sqrt(1 + (low.Value / frequency.Value * (low.Value / frequency.Value))) : 1;

    private static PairBand Band(MidSidePair pair, LowEnds lowEnds, Decibels threshold, Hertz frequency)
    {
        var midLoss = LowEndGain(lowEnds.Mid, frequency);
        var relative = Decibels.FromAmplitudeRatio(LowEndGain(lowEnds.Side, frequency) / midLoss);
        var there = pair with { SideLevel = pair.SideLevel + relative };
        var field = DiffuseField.Of(there, frequency);
        return new(
            frequency,
            there.SideLevel,
            Decibels.FromAmplitudeRatio(midLoss),
            Coverage.Of(there, threshold, frequency),
            field.Correlation,
            field.Mid.Index,
            VirtualPair.Of(there, frequency).IncludedAngle);
    }

    private static IEnumerable<string> LowStatements(LowEnds lowEnds)
    {
        var (mid, side) = (lowEnds.Mid?.Value ?? 0, lowEnds.Side?.Value ?? 0);
        if (Divergence(side, mid) is { } narrows)
            yield return string.Create(CultureInfo.InvariantCulture, $"below {Rounded(narrows)} this pair narrows to mono: the side is {NarrowsDecibels:0} dB or more down against the mid");
        if (Divergence(mid, side) is { } widens)
            yield return string.Create(CultureInfo.InvariantCulture, $"below {Rounded(widens)} this pair loses its middle: the mid is {NarrowsDecibels:0} dB or more down against the side");
    }

    /// <summary>Where the one with the higher corner is the stated amount below the other: (f² + l²)/(f² + h²) = k².</summary>
    private static Hertz? Divergence(double higher, double lower)
    {
        var ratio = new Decibels(-NarrowsDecibels).PowerRatio;
        var square = ((ratio * higher * higher) - (lower * lower)) / (1 - ratio);
        return square > LowestHeard * LowestHeard ? new(Math.Sqrt(square)) : null;
    }

    private static IEnumerable<string> HighStatements(MidSidePair pair, List<PairBand> bands)
    {
        var usual = DiffuseField.Of(pair, Reference).Mid.Index;
        var above = bands.Where(band => band.Frequency.Value > Reference.Value).ToList();
        var last = above.FindLastIndex(band => (band.MidDirectivity - usual).Value < BeamsDecibels);
        if (last + 1 < above.Count)
            yield return string.Create(CultureInfo.InvariantCulture, $"above {Rounded(above[last + 1].Frequency)} the mid beams and the image pulls apart: its directivity is {BeamsDecibels:0} dB or more above that at 1 kHz");
    }

    private static void CheckLow(Hertz? corner, string role)
    {
        if (corner is { } low && !(low.Value is > 0 and < 20_000))
            throw new ArgumentOutOfRangeException(nameof(corner), low.Value, $"the {role}'s low end lies above 0 Hz and below 20 kHz");
    }

    /// <summary>Two figures are what the words can bear: '90 Hz', '13 kHz'.</summary>
    private static Hertz Rounded(Hertz frequency)
    {
        var unit = Math.Pow(10, Math.Floor(Math.Log10(frequency.Value)) - 1);
        return new(Math.Round(frequency.Value / unit) * unit);
    }
}
