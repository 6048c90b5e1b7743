using System.Globalization;

namespace Athwart.Signals.Shaping;

/// <summary>What the track and the multiples of a hum cut are held to.</summary>
internal static class HumRules
{
    private const int MostPoints = 100_000;

    public static EquatableList<FrequencyPoint> Track(IReadOnlyList<FrequencyPoint> track)
    {
        ArgumentNullException.ThrowIfNull(track);
        if (track.Count is 0 or > MostPoints)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"A hum track has 1 to {MostPoints} points; given were {track.Count}."), nameof(track));
        for (var k = 0; k < track.Count; k++)
        {
            SettingsRules.Within(track[k].Hertz, 10, 1000, "Hz", $"track[{k}].Hertz");
            if (k > 0 && track[k].Frame <= track[k - 1].Frame)
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The frames of a hum track rise from point to point; frame {track[k].Frame} comes after {track[k - 1].Frame}. Put them in order."), nameof(track));
        }

        return new(track);
    }

    public static EquatableList<int> Harmonics(IReadOnlyList<int> harmonics, int highest)
    {
        ArgumentNullException.ThrowIfNull(harmonics);
        if (harmonics.Count == 0)
            throw new ArgumentException("A hum cut names at least one multiple of the fundamental; 1 is the fundamental itself.", nameof(harmonics));
        for (var k = 0; k < harmonics.Count; k++)
        {
            if (harmonics[k] < 1 || harmonics[k] > highest || (k > 0 && harmonics[k] <= harmonics[k - 1]))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Multiples of the fundamental rise from 1 to {highest}; {harmonics[k]} is outside or out of order."), nameof(harmonics));
        }

        return new(harmonics);
    }
}
