using System.Globalization;
using Athwart.Catalogue;

namespace Athwart.Jobs.Cut;

/// <summary>The rules every cut keeps, whoever changes it.</summary>
internal static class CutChecks
{
    /// <summary>Refuses a cut that is empty or does not lie inside its take.</summary>
    /// <param name="from">Its first frame.</param>
    /// <param name="to">The frame after its last.</param>
    /// <param name="take">The take's name.</param>
    /// <param name="frames">How long the take is.</param>
    /// <param name="rate">Frames per second.</param>
    /// <exception cref="JobException">It is or does not.</exception>
    public static void RequireInside(long from, long to, string take, long frames, int rate)
    {
        if (from >= 0 && to <= frames && from < to)
            return;
        throw new JobException(
            JobErrorKind.WrongUse,
            string.Create(CultureInfo.InvariantCulture, $"The cut {(double)from / rate:0.000} s to {(double)to / rate:0.000} s does not lie inside take '{take}', which lasts {(double)frames / rate:0.000} s."),
            "Give a start before the end, both inside the take.");
    }

    /// <summary>Refuses fades that overlap, and a loop that fades or has no room for its cross-fade.</summary>
    /// <exception cref="JobException">One of them is so; the cut is named.</exception>
    public static void RequireFades(Effect cut)
    {
        if (cut.FadeIn.Value < 0 || cut.FadeOut.Value < 0 || cut.FadeIn.Value + cut.FadeOut.Value > cut.Range.Length.Value)
            throw new JobException(JobErrorKind.WrongUse, $"The fades of '{cut.Name}' would overlap.", "Shorten the fades.");
        if (cut.Loop is not { } loop)
            return;
        if (loop.Crossfade.Value > cut.Range.Length.Value || loop.Crossfade.Value > cut.Range.From.Value)
            throw new JobException(JobErrorKind.WrongUse, $"The loop '{cut.Name}' has no room for its cross-fade, or the take does not begin early enough before it.", "Start it later, or find it anew with: athwart cut loop.");
        if (cut.FadeIn.Value > 0 || cut.FadeOut.Value > 0)
            throw new JobException(JobErrorKind.WrongUse, $"The loop '{cut.Name}' cannot fade: its end is its beginning.", "Leave the fades out.");
    }
}
