using Athwart.Signals.Filters;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>Curves of known filters in decibels.</summary>
internal static class CurveShapes
{
    /// <summary>The gain of sections one after the other; −∞ dB where they let nothing through.</summary>
    public static double Decibels(IEnumerable<AnalogueSection> sections, double hertz) => sections.Sum(s => FixedExponential.Decibels(s.AmplitudeRatioAt(hertz)));
}
