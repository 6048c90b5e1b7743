using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>Where between two loudspeakers a difference of levels puts the image: 0 the middle, positive to the left.</summary>
/// <remarks>
/// With x = (gL − gR)/(gL + gR): tangent law tan α = x·tan α0, sine law sin α = x·sin α0, α0 half the base. Neither reaches the
/// loudspeaker at a finite difference, so full left is a stated threshold. Sources: Bauer 1961, Clark et al. 1957, Bennett et
/// al. 1985, from memory; the linear 7.5 % per dB from Wittek and Theile 2002, from memory; see docs/sources.md.
/// </remarks>
public static class ImagePosition
{
    /// <summary>Shift per decibel as a share of half the base, in percent; from memory, holds to about 75 %.</summary>
    public const double LinearPercentPerDecibel = 7.5;

    /// <summary>Half of the usual base of 60 degrees.</summary>
    public static Degrees HalfBase { get; } = new(30);

    /// <summary>The image by the tangent law for loudspeakers at ±30 degrees.</summary>
    public static Degrees ByTangentLaw(Decibels leftAgainstRight) => ByTangentLaw(Ratio(leftAgainstRight));

    /// <summary>The image by the tangent law from x = (gL − gR)/(gL + gR), within ±1.</summary>
    internal static Degrees ByTangentLaw(double x) => Degrees.FromRadians(Math.Atan(x * Math.Tan(HalfBase.Radians)));

    /// <summary>The image by the sine law for loudspeakers at ±30 degrees.</summary>
    public static Degrees BySineLaw(Decibels leftAgainstRight) => Degrees.FromRadians(Math.Asin(Ratio(leftAgainstRight) * Math.Sin(HalfBase.Radians)));

    /// <summary>The image in percent of half the base by the linear rule, clamped to ±100; a figure from memory.</summary>
    public static double ByLinearRule(Decibels leftAgainstRight) => Math.Clamp(leftAgainstRight.Value * LinearPercentPerDecibel, -100, 100);

    /// <summary>The difference that puts the image at an angle by the tangent law; ±∞ at ±30 degrees.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Beyond the loudspeakers.</exception>
    public static Decibels DifferenceByTangentLaw(Degrees image) => Difference(image, Math.Tan);

    /// <summary>The difference that puts the image at an angle by the sine law; ±∞ at ±30 degrees.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Beyond the loudspeakers.</exception>
    public static Decibels DifferenceBySineLaw(Degrees image) => Difference(image, Math.Sin);

    /// <summary>(gL − gR)/(gL + gR) from the level difference: tanh of half of it in nepers, which holds for ±∞ too.</summary>
    private static double Ratio(Decibels difference) => Math.Tanh(difference.Value * (Math.Log(10) / 40));

    private static Decibels Difference(Degrees image, Func<double, double> law)
    {
        if (!(Math.Abs(image.Value) <= HalfBase.Value))
            throw new ArgumentOutOfRangeException(nameof(image), image.Value, "an image lies between the loudspeakers, −30 to 30 degrees");
        var x = law(image.Radians) / law(HalfBase.Radians);
        return new(20 * Math.Log10((1 + x) / (1 - x)));
    }
}
