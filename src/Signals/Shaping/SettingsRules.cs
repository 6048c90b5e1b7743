using System.Globalization;
using System.Runtime.CompilerServices;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>What settings of steps are held to: each refusal names the setting, the value, the range and what to do.</summary>
internal static class SettingsRules
{
    /// <summary>The roles, if there is one among them and nothing else.</summary>
    public static PairRoles Roles(PairRoles roles, [CallerArgumentExpression(nameof(roles))] string name = "") =>
        roles is PairRoles.Mid or PairRoles.Side or PairRoles.Both
            ? roles
            : throw new ArgumentOutOfRangeException(name, roles, "A step treats the mid, the side or both; name one of them.");

    /// <summary>The value, if it lies in the range, ends included; NaN never does.</summary>
    public static double Within(double value, double lowest, double highest, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= lowest && value <= highest
            ? value
            : throw new ArgumentOutOfRangeException(name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is to be from {lowest} to {highest} {unit}; give a value in that range or leave the step out."));

    /// <summary>The amplitude ratio of a gain in decibels; exactly 1 at 0 dB, 0 at −∞ dB.</summary>
    public static double Ratio(double decibels) => FixedGain.AmplitudeRatio(decibels);

    /// <summary>The rate, if the program handles it.</summary>
    public static int Rate(int sampleRateHertz, [CallerArgumentExpression(nameof(sampleRateHertz))] string name = "") =>
        sampleRateHertz is >= 8000 and <= 768_000
            ? sampleRateHertz
            : throw new ArgumentOutOfRangeException(name, sampleRateHertz, "The sample rate is to be from 8000 to 768000 Hz.");

    /// <summary>Refuses two channels of unlike length.</summary>
    public static void SameLength(ReadOnlySpan<double> mid, ReadOnlySpan<double> side)
    {
        if (mid.Length != side.Length)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Mid and side come in blocks of one length; given were {mid.Length} and {side.Length} frames."), nameof(side));
    }
}
