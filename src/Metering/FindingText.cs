using System.Globalization;
using System.Text.RegularExpressions;
using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>How findings speak: times, roles and the choice of stretches.</summary>
internal static partial class FindingText
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

    /// <summary>Formatted by the invariant culture, with a true minus before numbers.</summary>
    public static string Text(FormattableString text) => Minus().Replace(text.ToString(CultureInfo.InvariantCulture), "${before}−${digit}");

    /// <summary>The longest stretches in order of time, and how many there are besides.</summary>
    public static (IReadOnlyList<RunStretch> Listed, int Others) Choose(SampleRuns runs, Func<RunStretch, double> weight)
    {
        var listed = runs.Stretches.OrderByDescending(weight).Take(TakeDetectors.MostOfAKind).OrderBy(s => s.Range.From.Value).ToList();
        return (listed, runs.Stretches.Count - listed.Count);
    }

    public static string Besides(int others, bool last) => last && others > 0 ? Text($" {others} more places are not listed.") : "";

    public static string Times(long count, string noun) => count == 1 ? "1 " + noun : Text($"{count} {noun}s");

    [GeneratedRegex("(?<before>^|[^\\w.])-(?<digit>[0-9∞])", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Minus();
}
