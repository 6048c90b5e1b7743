using System.Globalization;
using Athwart.Microphones.Hearing;

namespace Athwart.Jobs.PlanRig;

/// <summary>What the day does to the recordist's ears.</summary>
internal static class ExposureReports
{
    public static ExposureSection? Of(Outing outing)
    {
        if (outing.Hours is not { } hours || (outing.LoudestDecibels is null && outing.HeadphonesDecibelsA is null))
            return null;
        var parts = new List<ExposurePart>();
        // Unweighted levels stand for A-weighted ones: on the safe side for anything but a hiss.
        if (outing.HeadphonesDecibelsA is { } headphones)
            parts.Add(new("in the headphones", headphones, hours * 3600));
        else
            parts.Add(new("at the loudest, beside the microphones", outing.LoudestDecibels!.Value, hours * 3600));
        var report = ExposureReport.For(parts, outing.Loudest?.PeakDecibels);
        return new(
            double.IsFinite(report.NioshDosePercent) ? Math.Round(report.NioshDosePercent, 2) : null,
            double.IsFinite(report.DailyDecibelsA) ? Math.Round(report.DailyDecibelsA, 2) : null,
            Words(report.European),
            report.TooMuch,
            [.. report.Lines.Select(Line)]);
    }

    private static string Line(ExposureLine line) => string.Create(
        CultureInfo.InvariantCulture,
        $"{line.Part.What}: {line.Part.LevelDecibelsA:0.#} dBA for {Time(line.Part.Seconds)}; NIOSH allows {Time(line.NioshAllowedSeconds)} a day, the EU's upper action value is reached after {Time(line.EuropeanUpperActionSeconds)}");

    private static string Words(EuropeanValue value) => value switch
    {
        EuropeanValue.LowerAction => "lower action value reached (80 dBA or 112 Pa)",
        EuropeanValue.UpperAction => "upper action value reached (85 dBA or 140 Pa)",
        EuropeanValue.AboveLimit => "limit reached (87 dBA or 200 Pa)",
        _ => "below the action values",
    };

    private static string Time(double seconds) => seconds switch
    {
        <= 0 => "no time",
        < 90 => string.Create(CultureInfo.InvariantCulture, $"{seconds:0} s"),
        < 5400 => string.Create(CultureInfo.InvariantCulture, $"{seconds / 60:0} min"),
        < 24 * 3600 => string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600:0.#} h"),
        _ => "the whole day",
    };
}
