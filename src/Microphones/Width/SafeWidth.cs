using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Microphones.Width;

/// <summary>Mean powers of mid and side in one band, or of the whole take.</summary>
/// <param name="Frequency">Middle of the band; 0 Hz for the whole.</param>
/// <param name="MidPower">Mean of mid², 0 or more.</param>
/// <param name="SidePower">Mean of side², 0 or more, before any side gain.</param>
/// <param name="CrossPower">Mean of mid·side; 0 where they are unrelated or it was not measured.</param>
public readonly record struct MidSidePower(Hertz Frequency, double MidPower, double SidePower, double CrossPower = 0);

/// <summary>As wide as stays safe in mono: the highest side level at which what was measured keeps a stated limit.</summary>
/// <remarks>
/// This sets one level for a whole take; that no moment breaks the limit is the mono guard's work. A band counts when its mid and
/// side together lie within <see cref="FaintDecibels"/> of the strongest. Source: derived, r = (PM − PS)/(PM + PS) and its general form.
/// </remarks>
public static class SafeWidth
{
    /// <summary>Bands more than 40 dB below the strongest have no say: what is lost there is not heard. A choice of ours.</summary>
    public const double FaintDecibels = 40;

    /// <summary>+24 dB: the most side that is ever proposed, for a take that holds as good as none.</summary>
    public static Decibels Highest { get; } = new(24);

    /// <summary>From measured powers, by a lowest correlation of left and right in each band that counts.</summary>
    /// <param name="bands">The whole take as one, or its bands.</param>
    /// <param name="lowestCorrelation">Above −1 and below 1; 0 keeps what is lost in mono at or below half the energy.</param>
    public static WidthAnswer ByCorrelation(IReadOnlyList<MidSidePower> bands, double lowestCorrelation)
        => Narrowest(
            bands,
            band => CorrelationLaw.SideGain(band.MidPower, band.SidePower, band.CrossPower, lowestCorrelation),
            (band, gain) => CorrelationLaw.Correlation(band.MidPower, band.SidePower, band.CrossPower, gain),
            lowestCorrelation,
            got => string.Create(CultureInfo.InvariantCulture, $"the lowest correlation of left and right is {got:0.000}"));

    /// <summary>From measured powers, by a highest side against mid as decoded, in decibels, in each band that counts.</summary>
    /// <param name="bands">The whole take as one, or its bands.</param>
    /// <param name="highestSideToMid">Finite; 0 dB is a correlation of 0.</param>
    public static WidthAnswer BySideToMid(IReadOnlyList<MidSidePower> bands, Decibels highestSideToMid)
    {
        if (!double.IsFinite(highestSideToMid.Value))
            throw new ArgumentOutOfRangeException(nameof(highestSideToMid), highestSideToMid.Value, "a highest side against mid is a finite number of decibels, such as 0");
        return Narrowest(
            bands,
            band => highestSideToMid.AmplitudeRatio * Math.Sqrt(band.MidPower / band.SidePower),
            (band, gain) => 10 * Math.Log10(gain * gain * band.SidePower / band.MidPower),
            highestSideToMid.Value,
            got => string.Create(CultureInfo.InvariantCulture, $"the strongest side against the mid is {got:+0.0;−0.0;0.0} dB"));
    }

    /// <summary>From a correlation of left and right that was measured at a side level; mid and side are taken as unrelated.</summary>
    /// <param name="measured">Above −1 and below 1.</param>
    /// <param name="at">The side level of that decode; finite.</param>
    /// <param name="lowest">Wanted, above −1 and below 1.</param>
    public static WidthAnswer FromMeasuredCorrelation(double measured, Decibels at, double lowest)
    {
        if (!double.IsFinite(at.Value))
            throw new ArgumentOutOfRangeException(nameof(at), at.Value, "the side level of the measured decode is a finite number of decibels");
        var change = CorrelationLaw.SideGain(1, 1, 0, lowest) / CorrelationLaw.SideGain(1, 1, 0, measured);
        var level = new Decibels(Math.Min(Highest.Value, (at + Decibels.FromAmplitudeRatio(change)).Value));
        return new(
            true,
            level,
            default,
            lowest,
            lowest,
            null,
            ["mid and side are taken as unrelated: only the correlation of left and right was given"],
            string.Create(CultureInfo.InvariantCulture, $"a correlation of {measured:0.000} at a side level of {at} becomes {lowest:0.000} at {level}"));
    }

    private static WidthAnswer Narrowest(IReadOnlyList<MidSidePower> bands, Func<MidSidePower, double> gainOf, Func<MidSidePower, double, double?> figureOf, double wanted, Func<double?, string> words)
    {
        ArgumentNullException.ThrowIfNull(bands);
        var counting = Counting(bands);
        if (counting.Count == 0)
            return new(false, default, default, wanted, null, null, [], "nothing was measured but silence: any side level is as safe as another, and 0 dB is given");
        var band = counting.MinBy(gainOf);
        var gain = gainOf(band);
        var level = gain > 0 ? new Decibels(Math.Min(Highest.Value, 20 * Math.Log10(gain))) : Decibels.Silence;
        var got = figureOf(band, level.AmplitudeRatio);
        var where = band.Frequency.Value > 0 ? $", decided by the band at {band.Frequency}" : "";
        var reached = level < Highest && gain > 0;
        var remark = gain > 0 ? $"{words(got)} at a side level of {level}{where}" : $"there is side without any mid{where}: only no side at all is safe in mono";
        return new(reached, level, default, wanted, got, null, [], level < Highest ? remark : remark + ", the most that is proposed");
    }

    private static List<MidSidePower> Counting(IReadOnlyList<MidSidePower> bands)
    {
        foreach (var band in bands)
        {
            if (!(band.MidPower >= 0 && band.SidePower >= 0 && double.IsFinite(band.MidPower + band.SidePower + band.CrossPower)))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"powers are finite and not below 0; the band at {band.Frequency} has {band.MidPower} and {band.SidePower}"), nameof(bands));
        }

        var faint = bands.Select(band => band.MidPower + band.SidePower).DefaultIfEmpty().Max() * Math.Pow(10, -FaintDecibels / 10);
        return [.. bands.Where(band => band.SidePower > 0 && band.MidPower + band.SidePower >= faint)];
    }
}
