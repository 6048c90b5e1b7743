using System.Globalization;
using Athwart.Jobs.CheckTakes;
using Athwart.Microphones.Subjects;

namespace Athwart.Jobs.PlanRig;

/// <summary>The subject of an outing in a rig's coverage.</summary>
internal static class SubjectReport
{
    public static SubjectSection? Of(Outing outing, double? coverageDegrees, Func<double, double?> sideLevelFor)
    {
        if (outing.Subject is not { } subject)
            return null;
        var landing = subject.Land(coverageDegrees);
        return new(
            What(outing),
            Math.Round(subject.Degrees, 4),
            Math.Round(subject.LeftEdgeDegrees, 4),
            Math.Round(subject.RightEdgeDegrees, 4),
            Math.Round(subject.SuitingCoverageDegrees(), 4),
            sideLevelFor(subject.SuitingCoverageDegrees()) is { } level ? Math.Round(level, 4) : null,
            Percent(landing.LeftShare),
            Percent(landing.RightShare),
            Words(landing.Verdict, coverageDegrees),
            outing.Path is { } path ? Math.Round(path.LevelChangeDecibels(), 4) : null,
            outing.Path?.Seconds is { } seconds ? Math.Round(seconds, 4) : null);
    }

    private static string What(Outing outing) => outing.Path is { } path
        ? string.Create(CultureInfo.InvariantCulture, $"passes from the {JsonNumber.Word(path.From.ToString())} over {path.LengthMetres:0.##} m, {path.ClosestMetres:0.##} m away at the closest")
        : string.Create(CultureInfo.InvariantCulture, $"{outing.Still!.WidthMetres:0.##} m wide, {outing.Still.DistanceMetres:0.##} m away");

    private static string Words(LandingVerdict verdict, double? coverage) => verdict switch
    {
        LandingVerdict.Suits => "fills the width well",
        LandingVerdict.PilesUp => "reaches beyond the coverage: what lies outside piles up at a loudspeaker; lower the side level or go further away",
        _ when coverage is null => "keeps to the middle: this rig never gets fully to one side at this level; raise the side level",
        _ => "keeps to the middle: raise the side level or go nearer for more width",
    };

    private static double? Percent(double? share) => share is { } s ? Math.Round(100 * s, 2) : null;
}
