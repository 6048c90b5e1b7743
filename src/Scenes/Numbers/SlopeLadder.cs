using Athwart.Signals.Filters;

namespace Athwart.Scenes.Numbers;

/// <summary>Filters whose power falls as f^−n above a corner: flat below it, poles and zeros taking turns above.</summary>
internal static class SlopeLadder
{
    private const double RungsPerOctave = 1.0;

    /// <summary>The sections for an amplitude that falls as f^−(n/2) from the corner up to 0.45 of the rate.</summary>
    /// <param name="powerExponent">n, above 0 and at most 6; 7/3 for turbulent pressure, 1 for pink.</param>
    /// <param name="cornerHertz">Where the fall starts.</param>
    /// <param name="rate">Sample rate in hertz.</param>
    public static BiquadCoefficients[] Sections(double powerExponent, double cornerHertz, double rate)
    {
        var amplitudeExponent = powerExponent / 2;
        var whole = (int)Math.Floor(amplitudeExponent);
        var part = amplitudeExponent - whole;
        List<BiquadCoefficients> sections = [];
        for (var i = 0; i < whole; i++)
            sections.Add(FilterDesigns.Low1(cornerHertz, rate));
        if (part < 1e-9)
            return [.. sections];
        var rung = Math.Pow(2, 1 / RungsPerOctave);
        for (var pole = cornerHertz; pole * Math.Pow(rung, part) < 0.45 * rate; pole *= rung)
            sections.Add(FilterDesigns.Step(pole * Math.Pow(rung, part), pole, rate));
        return [.. sections];
    }
}
