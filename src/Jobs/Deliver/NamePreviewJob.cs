using Athwart.Catalogue;
using Athwart.Jobs.Deliver.Metadata;
using Athwart.Jobs.Render;
using Athwart.Jobs.Sessions;

namespace Athwart.Jobs.Deliver;

/// <summary>An effect that a delivery would hold.</summary>
/// <param name="Take">Its take.</param>
/// <param name="Effect">Its name.</param>
/// <param name="Seconds">Its length.</param>
/// <param name="SideLevelDecibels">The side level it would get; −∞ for mono.</param>
/// <param name="StereoFile">What the stereo file would be called.</param>
public sealed record NamedEffect(string Take, string Effect, double Seconds, double SideLevelDecibels, string StereoFile);

/// <summary>Says what a delivery would hold and how its files would be called, without making any.</summary>
public static class NamePreviewJob
{
    /// <summary>Runs it.</summary>
    /// <exception cref="JobException">The template has a fault, or something named is not there.</exception>
    public static IReadOnlyList<NamedEffect> Run(DeliverRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        var names = new EffectNames(request);
        return [.. EffectPlanner.Plan(library, session, request).Select(p => Name(p.Take, p.Effect, names, request, session.Session.Name))];
    }

    private static NamedEffect Name(SessionTake take, EffectPlan effect, EffectNames names, DeliverRequest request, string session)
    {
        var word = request.Word ?? OutputWords.For(take.Description.Format);
        var rate = request.SampleRateHertz ?? take.Description.SampleRateHertz;
        var files = names.Next(take, effect, new EffectMetadata(take, effect, request), session, rate, word);
        return new(take.Name, effect.Name, (double)(effect.To - effect.From) / take.Description.SampleRateHertz, effect.SideLevel.Value, files.Stereo);
    }
}
