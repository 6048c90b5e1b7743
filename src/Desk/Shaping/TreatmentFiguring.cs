using Athwart.Catalogue;
using Athwart.Desk.Sound;
using Athwart.Jobs.Cut;
using Athwart.Jobs.Shape;

namespace Athwart.Desk.Shaping;

/// <summary>Asks the shaping jobs for the figures of what a page shows.</summary>
internal static class TreatmentFiguring
{
    /// <summary>Which take, cut and stretch.</summary>
    public static ShapeRequest Request(string library, SessionId session, TakeSummary take, Effect? cut, FrameSelection stretch) => new()
    {
        Library = library,
        Session = session.Value,
        Take = take.Name,
        Effect = cut?.Id,
        SideLevel = cut?.SideLevel,
        From = TakePlace.AtFrame(stretch.FromFrame),
        To = TakePlace.AtFrame(stretch.ToFrame),
    };

    /// <summary>As recorded, then after each step.</summary>
    public static IReadOnlyList<StepFigures> Measure(ShapedTake shaped, CancellationToken cancellation) =>
        MeasureJob.Run(shaped.Take, shaped.Roles, shaped.Treated, shaped.SideLevel.AmplitudeRatio, shaped.From, shaped.To, cancellation);
}
