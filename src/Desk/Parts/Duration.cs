using System.Globalization;

namespace Athwart.Desk.Parts;

/// <summary>Lengths of time for people.</summary>
internal static class Duration
{
    /// <summary>'4.25 s', '1:04.2', '1:02:03'.</summary>
    public static string Short(double seconds) => seconds switch
    {
        < 60 => string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0#} s"),
        < 3600 => string.Create(CultureInfo.InvariantCulture, $"{(int)(seconds / 60)}:{seconds % 60:00.0}"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{(int)(seconds / 3600)}:{(int)(seconds / 60) % 60:00}:{seconds % 60:00}"),
    };

    /// <summary>'35 seconds', '12 minutes', '2 h 05 min'.</summary>
    public static string Long(double seconds) => seconds switch
    {
        < 90 => string.Create(CultureInfo.InvariantCulture, $"{seconds:0} seconds"),
        < 5400 => string.Create(CultureInfo.InvariantCulture, $"{seconds / 60:0} minutes"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{(int)(seconds / 3600)} h {(int)(seconds / 60) % 60:00} min"),
    };

    /// <summary>A place in a take to the millisecond: '1:02.250', '1:00:00.000'.</summary>
    public static string Place(long frame, int sampleRateHertz)
    {
        var time = TimeSpan.FromSeconds((double)frame / Math.Max(1, sampleRateHertz));
        return time.TotalHours >= 1
            ? string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours}:{time:mm\\:ss\\.fff}")
            : string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalMinutes}:{time:ss\\.fff}");
    }

    /// <summary>'12.3 MB'.</summary>
    public static string Bytes(long bytes) => bytes switch
    {
        < 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0} kB"),
        < 1_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.00} GB"),
    };
}
