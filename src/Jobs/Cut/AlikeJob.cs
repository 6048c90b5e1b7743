using Athwart.Catalogue;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Sessions;
using Athwart.Metering.Events;

namespace Athwart.Jobs.Cut;

/// <summary>A cut among those that sound like it.</summary>
/// <param name="Family">Its family, from 1.</param>
/// <param name="Take">The take.</param>
/// <param name="Name">Its name.</param>
/// <param name="Seconds">Its length.</param>
/// <param name="Nearest">The cut that is most like it; empty when there is no other.</param>
/// <param name="NearestDecibels">How different that is; null when there is no other.</param>
public sealed record AlikeCut(int Family, string Take, string Name, double Seconds, string Nearest, double? NearestDecibels);

/// <summary>Says which cuts of a session are variations of one sound.</summary>
public static class AlikeJob
{
    /// <summary>Distance up to which cuts count as variations of one sound, decibels.</summary>
    public const double UsualDecibels = SoundFamilies.UsualDistance;

    private const int BlockFrames = 1 << 15;

    /// <summary>Compares the cuts.</summary>
    /// <param name="libraryFolder">The library.</param>
    /// <param name="session">The session.</param>
    /// <param name="decibels">How different two may be, 0 to 60.</param>
    /// <param name="cancellation">Stops between cuts.</param>
    /// <returns>The cuts by family, the families in order of take and place.</returns>
    public static IReadOnlyList<AlikeCut> Run(string libraryFolder, string session, double decibels, CancellationToken cancellation)
    {
        if (!(decibels is >= 0 and <= 60))
            throw new JobException(JobErrorKind.WrongUse, FormattableString.Invariant($"{decibels} dB is no distance between sounds."), "Give 0 to 60.");
        using var library = Library.Open(libraryFolder, LibraryAccess.Write);
        var cuts = new List<(SessionTake Take, Effect Cut, SoundPrint Print)>();
        foreach (var take in SessionLoader.Load(library, session, cancellation).Takes)
            cuts.AddRange(Prints(library, take, cancellation));
        var prints = cuts.ConvertAll(c => c.Print);
        return [.. SoundFamilies.Group(prints, decibels).SelectMany((family, number) => family.Select(i => Alike(number + 1, i)))];

        AlikeCut Alike(int family, int i)
        {
            var (take, cut, print) = cuts[i];
            var nearest = Enumerable.Range(0, cuts.Count).Where(j => j != i).Select(j => (Cut: cuts[j].Cut.Name, Distance: print.DistanceTo(prints[j]))).OrderBy(n => n.Distance).FirstOrDefault();
            return new(family, take.Name, cut.Name, Math.Round((double)cut.Range.Length.Value / take.Description.SampleRateHertz, 3), nearest.Cut ?? "", nearest.Cut is null ? null : Math.Round(nearest.Distance, 1));
        }
    }

    private static List<(SessionTake Take, Effect Cut, SoundPrint Print)> Prints(Library library, SessionTake take, CancellationToken cancellation)
    {
        var prints = new List<(SessionTake, Effect, SoundPrint)>();
        using var recording = take.Description.Open();
        foreach (var cut in library.Effects(take.Catalogued.Id).OrderBy(e => e.Range.From))
        {
            cancellation.ThrowIfCancellationRequested();
            var meter = new SoundPrintMeter(take.Description.SampleRateHertz);
            RoleBlocks.ForEach(recording, take.Roles, cut.Range.From.Value, cut.Range.To.Value, BlockFrames, (_, mid, side) => meter.Add(mid, side));
            prints.Add((take, cut, meter.Complete()));
        }

        return prints;
    }
}
