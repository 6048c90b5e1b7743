using Athwart.Signals.Convolution;
using Athwart.Signals.Filters;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>What happens to the mid while the shuffler changes the side.</summary>
public enum ShufflerLaw
{
    /// <summary>The width matrix, for each frequency: side gain w, mid gain 2 − w, whose sum stays.</summary>
    WidthMatrix,

    /// <summary>The side alone is changed, as in Blumlein's difference channel; the mono fold keeps every bit.</summary>
    SideOnly,
}

/// <summary>
/// Opens low frequencies, which coincident microphones leave narrow: below a corner the side is raised against the mid by a first-order
/// shelf. Less than 0 dB narrows them.
/// </summary>
/// <remarks>
/// Sources: shuffling of the difference signal and the width matrix (side w/2, mid 1 − w/2 between sum and difference) as published by M. A. Gerzon; see
/// docs/sources.md#shuffling. Commonly about 600 Hz and 4 to 8 dB (from memory).
/// </remarks>
public sealed record Shuffler
{
    /// <summary>Names corner, amount and law.</summary>
    /// <param name="cornerHertz">Corner of the shelf, 50 to 3000 Hz.</param>
    /// <param name="gainDecibels">Side over mid far below the corner, −12 to +12 dB.</param>
    /// <param name="law">What happens to the mid.</param>
    /// <param name="phase">Minimum: first-order shelves; linear: their real part, no phase.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public Shuffler(double cornerHertz, double gainDecibels, ShufflerLaw law, FilterPhase phase)
    {
        CornerHertz = SettingsRules.Within(cornerHertz, 50, 3000, "Hz");
        GainDecibels = SettingsRules.Within(gainDecibels, -12, 12, "dB");
        Law = Enum.IsDefined(law) ? law : throw new ArgumentOutOfRangeException(nameof(law), law, "The law is the width matrix or side only; choose one.");
        Phase = CurveRules.Phase(phase);
        // Once here: a filter that is drawn asks at every point of its curve.
        var ratio = FixedGain.AmplitudeRatio(GainDecibels);
        LowSideRatio = Law == ShufflerLaw.SideOnly ? ratio : 2 * ratio / (1 + ratio);
    }

    /// <summary>Corner of the shelf in hertz.</summary>
    public double CornerHertz { get; }

    /// <summary>Side over mid far below the corner, in dB.</summary>
    public double GainDecibels { get; }

    /// <summary>What happens to the mid.</summary>
    public ShufflerLaw Law { get; }

    /// <summary>Minimum or linear phase.</summary>
    public FilterPhase Phase { get; }

    /// <summary>The side's amplitude ratio far below the corner: r, or 2r/(1 + r) where the mid gives way, r being the gain.</summary>
    public double LowSideRatio { get; }

    /// <summary>The side's gain in dB at a frequency in hertz.</summary>
    public double SideDecibelsAt(double hertz) => FixedExponential.Decibels(Ratio(hertz, LowSideRatio));

    /// <summary>The mid's gain in dB at a frequency in hertz.</summary>
    public double MidDecibelsAt(double hertz) => Law == ShufflerLaw.SideOnly ? 0 : FixedExponential.Decibels(Ratio(hertz, 2 - LowSideRatio));

    // |1 + (low − 1) / (1 + jf/f₀)|, or its real part.
    private double Ratio(double hertz, double low)
    {
        var square = hertz / CornerHertz * (hertz / CornerHertz);
        return Phase == FilterPhase.Linear ? 1 + ((low - 1) / (1 + square)) : Math.Sqrt(((low * low) + square) / (1 + square));
    }
}

/// <summary><see cref="Shuffler"/> at work.</summary>
/// <param name="settings">What to do.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
public sealed class ShufflerStage(Shuffler settings, int sampleRateHertz) : ComposedStage(settings.Phase == FilterPhase.Linear
    ? new DrawnStage(settings, settings.Law == ShufflerLaw.SideOnly ? null : settings.MidDecibelsAt, settings.SideDecibelsAt, sampleRateHertz, FilterPhase.Linear)
    : new ShufflerSections(settings, SettingsRules.Rate(sampleRateHertz)))
{
    private sealed class ShufflerSections(Shuffler settings, int sampleRateHertz) : SectionStage(
        settings.Law == ShufflerLaw.SideOnly ? [] : [Shelf(2 - settings.LowSideRatio, settings.CornerHertz, sampleRateHertz)],
        [Shelf(settings.LowSideRatio, settings.CornerHertz, sampleRateHertz)]);

    // (s + low)/(s + 1) by the bilinear transform: one pole for mid and side, so that their gains add up to 2 at every frequency, phase and all.
    private static BiquadCoefficients Shelf(double low, double cornerHertz, int sampleRateHertz)
    {
        var t = FixedTrigonometry.TanPi(cornerHertz / sampleRateHertz);
        return new((1 + (low * t)) / (1 + t), ((low * t) - 1) / (1 + t), 0, (t - 1) / (1 + t), 0);
    }
}
