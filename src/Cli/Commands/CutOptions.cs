using System.CommandLine;
using Athwart.Jobs.Cut;

namespace Athwart.Cli.Commands;

/// <summary>Options that the commands about cuts share.</summary>
internal static class CutOptions
{
    public static Option<string> Take() => new("--take") { Description = "The take, by name or by the start of it.", HelpName = "NAME", Required = true };

    public static Option<string?> OneTake() => new("--take") { Description = "One take of the session only.", HelpName = "NAME" };

    public static Option<string> Name(string description) => new("--name") { Description = description, HelpName = "NAME", Required = true };

    public static Option<double?> Milliseconds(string name, string description) => new(name) { Description = description, HelpName = "MS" };

    public static Option<CutSnap> Snap()
    {
        var option = new Option<CutSnap>("--snap")
        {
            Description = "Move the place to the nearest passage through zero (zero) or the quietest moment near it (quiet); it stays to the frame unless said.",
            HelpName = "WHAT",
            CustomParser = result =>
            {
                switch (result.Tokens[0].Value)
                {
                    case "none": return CutSnap.None;
                    case "zero": return CutSnap.Zero;
                    case "quiet": return CutSnap.Quiet;
                    default:
                        result.AddError("--snap takes 'none', 'zero' or 'quiet'.");
                        return CutSnap.None;
                }
            },
        };
        option.CompletionSources.Add("none", "zero", "quiet");
        return option;
    }

    public static Option<string?> FadeCurve()
    {
        var option = new Option<string?>("--fade-curve") { Description = "Shape of the fades: " + string.Join(", ", FadeWords.All) + ".", HelpName = "SHAPE" };
        option.CompletionSources.Add([.. FadeWords.All]);
        return option;
    }

    public static CutPlace Place(ParseResult parsed, Option<string> library, Option<string> session, Option<string> take, Option<string> name) =>
        new(parsed.GetValue(library)!, parsed.GetValue(session)!, parsed.GetValue(take)!, parsed.GetValue(name)!);

    public static TimeSpan? Time(double? milliseconds) => milliseconds is { } ms ? TimeSpan.FromMilliseconds(ms) : null;
}
