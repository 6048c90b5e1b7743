using Athwart.Microphones.Choosing;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Jobs.PlanRig;

/// <summary>Finds the parts of a rig in a kit, and its side level.</summary>
public static class RigResolver
{
    private static readonly Hertz Reference = new(1000);

    /// <summary>Resolves a rig.</summary>
    /// <exception cref="JobException">A name is not in the kit and no pattern, the side is no figure-8, or one unit would be used twice.</exception>
    public static PlannedRig Resolve(RigWish wish, Kit kit, Outing outing)
    {
        ArgumentNullException.ThrowIfNull(wish);
        ArgumentNullException.ThrowIfNull(kit);
        ArgumentNullException.ThrowIfNull(outing);
        var mid = Find(wish.Mid, kit, "mid");
        var side = FindSide(wish.Side, kit);
        if (ReferenceEquals(mid.Microphone, side.Microphone) && mid.Microphone.Count < 2)
            throw new JobException(JobErrorKind.WrongUse, $"There is only one {mid.Microphone.Name}: it cannot be mid and side at once.", "Choose another microphone for one of the roles, or say in the kit that there are two.");
        if (SideFitness.WhyNot(side.Setting.Pattern) is { } why)
            throw new JobException(JobErrorKind.WrongUse, $"'{side.Name}' cannot be the side.", Sentence(why));
        var recorder = Named(wish.Recorder, kit.Recorders, r => r.Name, "recorder");
        var protection = Named(wish.Protection, kit.Protections, p => p.Name, "wind protection");
        var (level, how, reached) = SideLevel(wish, mid.Setting.Pattern, side.Setting.Pattern, outing);
        return new(mid, side, recorder, protection, level, how, reached);
    }

    private static (Decibels Level, string How, bool Reached) SideLevel(RigWish wish, IPattern mid, IPattern side, Outing outing)
    {
        try
        {
            RigSetting setting;
            switch (wish.From)
            {
                case SideLevelFrom.Coverage:
                    setting = RigSettings.ForCoverage(mid, side, wish.Angle, outing.Threshold, Reference);
                    break;
                case SideLevelFrom.IncludedAngle:
                    setting = RigSettings.ForIncludedAngle(mid, side, wish.Angle, Reference);
                    break;
                case SideLevelFrom.Pattern when PatternNames.TryParse(wish.Pattern, out var pattern):
                    setting = RigSettings.ForPattern(mid, side, pattern, Reference);
                    break;
                case SideLevelFrom.Pattern:
                    throw new JobException(JobErrorKind.WrongUse, $"'{wish.Pattern}' is no pattern.", Sentence(PatternNames.Remedy));
                case SideLevelFrom.Subject when outing.Subject is { } subject:
                    setting = RigSettings.ForCoverage(mid, side, new(subject.SuitingCoverageDegrees()), outing.Threshold, Reference);
                    break;
                case SideLevelFrom.Subject:
                    throw new JobException(JobErrorKind.WrongUse, "The side level is to suit a subject, and there is none.", "Give its --width and --distance, or its --path and --distance.");
                default:
                    return (wish.SideLevel, $"the side level of {wish.SideLevel} is given", true);
            }

            return (setting.SideLevel, setting.Remark, setting.Reached);
        }
        catch (ArgumentOutOfRangeException e)
        {
            throw new JobException(JobErrorKind.WrongUse, Sentence(e.Message.Split(" (Parameter", 2)[0].Split(Environment.NewLine)[0]), "Write the full angle from edge to edge, such as 90.", e);
        }
    }

    private static MicrophoneChoice FindSide(string name, Kit kit)
    {
        // A body with a figure-8 among its settings means that one when it is named as side.
        if (InKit(name, kit) is null && Body(name, kit) is { } body && body.Settings.FirstOrDefault(s => s.Pattern.IsFigureEight()) is { } eight)
            return new(body, eight);
        return Find(name, kit, "side");
    }

    private static MicrophoneChoice Find(string name, Kit kit, string role)
    {
        if (InKit(name, kit) is { } found)
            return found;
        if (Body(name, kit) is { } body)
            return string.Equals(role, "mid", StringComparison.Ordinal) && body.Settings.FirstOrDefault(s => !s.Pattern.IsFigureEight()) is { } setting ? new(body, setting) : new(body, body.Settings[0]);
        if (PatternNames.TryParse(name, out var pattern))
            return new(new() { Name = pattern.Name, Settings = [new() { Pattern = pattern }], Owned = true, Count = 2 }, new() { Pattern = pattern });
        var near = MicrophoneChoice.All(kit).Select(c => c.Name).Where(n => n.Contains(name, StringComparison.OrdinalIgnoreCase)).Take(4).ToList();
        var hint = near.Count > 0 ? $"Did you mean {string.Join(" or ", near.Select(n => $"'{n}'"))}?"
            : kit.Microphones.Count == 0 ? $"There is no kit here (name its library with --library); without one, {PatternNames.Remedy}."
            : $"'kit list' shows what there is; or {PatternNames.Remedy}.";
        throw new JobException(JobErrorKind.WrongUse, $"'{name}' as {role} is neither in the kit nor a pattern.", hint);
    }

    private static MicrophoneChoice? InKit(string name, Kit kit) => MicrophoneChoice.All(kit).FirstOrDefault(c => c.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    private static Microphone? Body(string name, Kit kit) => kit.Microphones.FirstOrDefault(m => m.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    internal static T? Named<T>(string? name, IReadOnlyList<T> things, Func<T, string> nameOf, string what)
        where T : class
    {
        if (name is null)
            return null;
        return things.FirstOrDefault(t => nameOf(t).Equals(name, StringComparison.OrdinalIgnoreCase))
            ?? throw new JobException(JobErrorKind.WrongUse, $"The kit has no {what} '{name}'.", things.Count == 0 ? $"It has no {what} at all; add one with 'kit add' or 'kit import'." : $"It has {string.Join(", ", things.Select(t => $"'{nameOf(t)}'"))}.");
    }

    private static string Sentence(string text) => char.ToUpperInvariant(text[0]) + text[1..] + (text.EndsWith('.') ? "" : ".");
}
