using System.Globalization;
using Athwart.Metering;

namespace Athwart.Jobs.CheckTakes;

/// <summary>How far down in speed the sound of a role can go, in words.</summary>
internal static class BandwidthWords
{
    /// <summary>As "sound up to 61 kHz: 1.6 octaves down keep it to 20 kHz"; null when no sound stands out of the noise.</summary>
    public static string? Of(RoleMeasures role)
    {
        var kilohertz = role.HighestSoundFrequency.Value / 1000;
        if (kilohertz <= 0)
            return null;
        return role.OctavesDown > 0
            ? string.Create(CultureInfo.InvariantCulture, $"sound up to {kilohertz:0} kHz: {role.OctavesDown:0.0} octaves down keep it to 20 kHz")
            : string.Create(CultureInfo.InvariantCulture, $"sound up to {kilohertz:0.0} kHz: slowed down, it ends lower than that");
    }
}
