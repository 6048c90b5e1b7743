using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Athwart.Jobs;
using Athwart.Jobs.PlanRig;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary>The options by which one rig is said.</summary>
internal sealed class RigOptions
{
    private readonly Option<string?> _rig = new("--rig") { Description = "The whole rig in one line, as 'rig choose' prints it: \"MID + SIDE @ LEVEL\".", HelpName = "RIG" };
    private readonly Option<string?> _mid = new("--mid") { Description = "The mid: a microphone of the kit (\"NAME\" or \"NAME: SETTING\"), a pattern such as cardioid, or an omni share such as 0.6.", HelpName = "NAME" };
    private readonly Option<string?> _side = new("--side") { Description = "The side: a figure-8 of the kit; an ideal figure-8 unless said.", HelpName = "NAME" };
    private readonly Option<Decibels?> _level = CommonOptions.SideLevel("The side level to decode at, in decibels; 0 unless said.");
    private readonly Option<double?> _coverage = Number("--coverage", "Find the side level for this coverage, in degrees.", "DEG");
    private readonly Option<double?> _angle = Number("--included-angle", "Find the side level for this included angle of the virtual pair, in degrees.", "DEG");
    private readonly Option<string?> _pattern = new("--virtual-pattern") { Description = "Find the side level for this pattern of the virtual pair.", HelpName = "PATTERN" };
    private readonly Option<bool> _suit = new("--suit-subject") { Description = "Find the side level for the coverage that suits the subject." };
    private readonly Option<string?> _recorder = new("--recorder") { Description = "A recorder of the kit.", HelpName = "NAME" };
    private readonly Option<string?> _protection = new("--protection") { Description = "A wind protection of the kit.", HelpName = "NAME" };

    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[_rig, _mid, _side, _level, _coverage, _angle, _pattern, _suit, _recorder, _protection])
            command.Add(option);
    }

    public RigWish Read(ParseResult parsed)
    {
        var whole = parsed.GetValue(_rig);
        var mid = parsed.GetValue(_mid);
        if ((whole is null) == (mid is null))
            throw new JobException(JobErrorKind.WrongUse, "Say one rig.", "Give --mid (and --side), or --rig \"MID + SIDE @ LEVEL\".");
        if (whole is not null && parsed.GetValue(_side) is not null)
            throw new JobException(JobErrorKind.WrongUse, "The side is said twice.", "Name it in --rig \"MID + SIDE @ LEVEL\", or give --mid and --side.");
        var wish = whole is not null ? RigWish.Parse(whole) : new RigWish { Mid = mid!, Side = parsed.GetValue(_side) ?? "figure-8" };
        wish = wish with { Recorder = parsed.GetValue(_recorder), Protection = parsed.GetValue(_protection) };
        return SideLevel(parsed, wish);
    }

    public static Option<double?> Number(string name, string description, string unit) => new(name) { Description = description, HelpName = unit, CustomParser = ParseNumber };

    private static double? ParseNumber(ArgumentResult result)
    {
        var text = result.Tokens[0].Value.Replace('−', '-');
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value))
            return value;
        result.AddError($"'{result.Tokens[0].Value}' is no number. Write it with a point, such as 12.5.");
        return null;
    }

    private RigWish SideLevel(ParseResult parsed, RigWish wish)
    {
        var ways = new List<RigWish>();
        if (parsed.GetValue(_level) is { } level)
            ways.Add(wish with { From = SideLevelFrom.Given, SideLevel = level });
        if (parsed.GetValue(_coverage) is { } coverage)
            ways.Add(wish with { From = SideLevelFrom.Coverage, Angle = new(coverage) });
        if (parsed.GetValue(_angle) is { } angle)
            ways.Add(wish with { From = SideLevelFrom.IncludedAngle, Angle = new(angle) });
        if (parsed.GetValue(_pattern) is { } pattern)
            ways.Add(wish with { From = SideLevelFrom.Pattern, Pattern = pattern });
        if (parsed.GetValue(_suit))
            ways.Add(wish with { From = SideLevelFrom.Subject });
        if (ways.Count > 1)
            throw new JobException(JobErrorKind.WrongUse, "The side level is said in more than one way.", "Give one of --side-level, --coverage, --included-angle, --virtual-pattern and --suit-subject.");
        return ways.Count == 1 ? ways[0] : wish;
    }
}
