using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Jobs.PlanRig;

/// <summary>A rig in one line that can be copied into a command.</summary>
internal static class RigWords
{
    public static string Of(string mid, string side, Decibels sideLevel) =>
        string.Create(CultureInfo.InvariantCulture, $"{mid} + {side} @ {(double.IsNegativeInfinity(sideLevel.Value) ? "-inf" : sideLevel.Value.ToString("0.##", CultureInfo.InvariantCulture))}");
}
