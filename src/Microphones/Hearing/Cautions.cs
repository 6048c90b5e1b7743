using System.Globalization;

namespace Athwart.Microphones.Hearing;

/// <summary>A caution for the sheet.</summary>
/// <param name="Hazard">What it is about; none for what always holds.</param>
/// <param name="Text">The caution in one or two sentences.</param>
public sealed record Caution(SubjectHazards Hazard, string Text);

/// <summary>Plain cautions for a subject. Local law, site rules and licensed people come first, and the first caution says so.</summary>
/// <remarks>General words, from memory; see docs/safety.md and docs/sources.md#field-cautions.</remarks>
public static class Cautions
{
    /// <summary>From here on a level counts as loud without being asked, 85 dBA (NIOSH).</summary>
    public const double LoudDecibelsA = NioshExposure.LimitDecibelsA;

    /// <summary>The peak near which impulses can harm at once, 140 dB (200 Pa, the limit of Directive 2003/10/EC).</summary>
    public const double HarmfulPeakDecibels = 140;

    private static readonly Caution[] Always =
    [
        new(SubjectHazards.None, "Local law, site rules and the people licensed to run the place come first; where they differ from this sheet, follow them."),
        new(SubjectHazards.None, "Tell someone where you go and when you will be back. If it does not feel right, pack up."),
    ];

    private static readonly Caution[] ByHazard =
    [
        new(SubjectHazards.LoudSource, "Loud source: keep your distance, wear hearing protection, keep the time short, obey the person in charge. Headphones are no hearing protection."),
        new(SubjectHazards.Headphones, "Headphones: begin with the monitoring level at its minimum and rest your ears; ringing or dullness means that it was too much. You do not hear what comes."),
        new(SubjectHazards.Railway, "Railway: never on or beside the line without the operator's permission and the protection it provides; keep booms and stands far from overhead lines."),
        new(SubjectHazards.Road, "Road: stand clear of traffic, wear high visibility, place nothing in the carriageway."),
        new(SubjectHazards.Water, "Water: do not work alone, wear a buoyancy aid; no mains-powered equipment at the edge. Rising water, tides and ice give little warning."),
        new(SubjectHazards.LockEdge, "Lock and quay edges: slippery stone, deep cold water, currents. Stay clear of paddles, gate beams and ropes under load; never lean over an edge, use a longer boom. Leave the equipment to those entitled to work it."),
        new(SubjectHazards.Height, "Height: keep away from unprotected edges and fragile roofs, secure what could fall; work at height belongs to those trained and equipped for it."),
        new(SubjectHazards.Weather, "Weather: heat, cold, wind and dark change judgement before they are felt; weight down stands."),
        new(SubjectHazards.Lightning, "Thunder: lower stands and booms at once, leave open ground and water."),
        new(SubjectHazards.Wildlife, "Animals: keep your distance, lure nothing with playback, respect closures and breeding seasons."),
        new(SubjectHazards.Permission, "Permission: ask the owner or operator first, and those who can be heard."),
        new(SubjectHazards.Machinery, "Machinery and moving bridges: stay outside guards and marked zones; hair, straps and cables get caught, anything can start by itself. Only its operator starts, stops or isolates it."),
    ];

    /// <summary>The cautions that apply, what always holds first, then by the order of the hazards.</summary>
    /// <param name="hazards">What about the subject can hurt.</param>
    /// <param name="loudestDecibelsA">The loudest level at the recordist's ears in dBA; from 85 it counts as a loud source; null when not known.</param>
    /// <param name="loudestPeakDecibels">The loudest peak there in dB; from 140 it gets a caution of its own; null when not known.</param>
    /// <param name="headphonesDecibelsA">The monitoring level set, in dBA at the ear; null when not known.</param>
    public static IReadOnlyList<Caution> For(SubjectHazards hazards, double? loudestDecibelsA = null, double? loudestPeakDecibels = null, double? headphonesDecibelsA = null)
    {
        if (loudestDecibelsA >= LoudDecibelsA || loudestPeakDecibels >= HarmfulPeakDecibels)
            hazards |= SubjectHazards.LoudSource;
        if (headphonesDecibelsA is not null)
            hazards |= SubjectHazards.Headphones;
        return [.. Always, .. ByHazard.Where(caution => hazards.HasFlag(caution.Hazard)).SelectMany(caution => WithFigures(caution, loudestDecibelsA, loudestPeakDecibels, headphonesDecibelsA))];
    }

    private static IEnumerable<Caution> WithFigures(Caution caution, double? loudest, double? peak, double? headphones)
    {
        yield return caution;
        if (caution.Hazard == SubjectHazards.LoudSource && peak >= HarmfulPeakDecibels)
            yield return new(caution.Hazard, string.Create(CultureInfo.InvariantCulture, $"Peaks of {peak:0} dB can harm at once: go further away and wear protection, whatever the time."));
        var level = caution.Hazard switch { SubjectHazards.LoudSource => loudest, SubjectHazards.Headphones => headphones, _ => null };
        if (level >= LoudDecibelsA)
            yield return new(caution.Hazard, TimeAllowed(level.Value));
    }

    private static string TimeAllowed(double level) => NioshExposure.AllowedSeconds(level) switch
    {
        0 => string.Create(CultureInfo.InvariantCulture, $"At {level:0.#} dBA no time is recommended without protection (NIOSH ceiling 115 dBA)."),
        < 60 and var seconds => string.Create(CultureInfo.InvariantCulture, $"At {level:0.#} dBA the recommended limit for a day is {seconds:0} seconds (NIOSH)."),
        < 7200 and var seconds => string.Create(CultureInfo.InvariantCulture, $"At {level:0.#} dBA the recommended limit for a day is {seconds / 60:0} minutes (NIOSH)."),
        var seconds => string.Create(CultureInfo.InvariantCulture, $"At {level:0.#} dBA the recommended limit for a day is {seconds / 3600:0.#} hours (NIOSH)."),
    };
}
