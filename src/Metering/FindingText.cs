using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>How findings speak: times, roles and the choice of stretches.</summary>
internal static class FindingText
{
    public static string Name(ChannelRole role) => role switch
    {
        ChannelRole.Mid => "mid",
        ChannelRole.Side => "side",
        ChannelRole.Left => "left",
        ChannelRole.Right => "right",
        _ => "channel",
    };

    /// <summary>'1:02.35' for minutes, seconds and hundredths.</summary>
    public static string Time(FrameIndex at, int sampleRateHertz)
    {
        var time = at.At(sampleRateHertz);
        return string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalMinutes}:{time.Seconds:00}.{time.Milliseconds / 10:00}");
    }

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>The longest stretches in order of time, and how many there are besides.</summary>
    public static (IReadOnlyList<RunStretch> Listed, int Others) Choose(SampleRuns runs, Func<RunStretch, double> weight)
    {
        var listed = runs.Stretches.OrderByDescending(weight).Take(TakeDetectors.MostOfAKind).OrderBy(s => s.Range.From.Value).ToList();
        return (listed, runs.Stretches.Count - listed.Count);
    }

    public static string Besides(int others, bool last) => last && others > 0 ? Text($" {others} more places are not listed.") : "";

    public static string Times(long count, string noun) => count == 1 ? "1 " + noun : Text($"{count} {noun}s");
}
