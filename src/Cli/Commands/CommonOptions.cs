using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Athwart.Jobs.Cut;
using Athwart.Jobs.Roles;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary>Options that several commands share, each with one meaning.</summary>
internal static class CommonOptions
{
    public static Option<string> Library(bool required = true) => new("--library")
    {
        Description = "The library's folder.",
        HelpName = "DIR",
        Required = required,
    };

    public static Option<string> Session(bool required = true) => new("--session")
    {
        Description = "The session, by name or by the start of its id.",
        HelpName = "NAME",
        Required = required,
    };

    public static Option<Decibels?> SideLevel(string description) => new("--side-level")
    {
        Description = description,
        HelpName = "DB",
        CustomParser = ParseDecibels,
    };

    public static Option<int?> Mid() => new("--mid") { Description = "The channel of the mid, counted from 1.", HelpName = "N" };

    public static Option<int?> Side() => new("--side") { Description = "The channel of the side, counted from 1.", HelpName = "N" };

    public static Option<bool?> InvertSide() => new("--invert-side")
    {
        Description = "Turn the side over: its positive lobe pointed right. Give 'false' to take it back.",
        Arity = ArgumentArity.ZeroOrOne,
        CustomParser = result => result.Tokens.Count == 0 || ParseBoolean(result),
    };

    public static Option<bool> Json(string what) => new("--json") { Description = $"Print {what} as JSON on standard output." };

    public static Option<bool> Overwrite() => new("--overwrite") { Description = "Replace a file that exists already." };

    public static Option<TakePlace?> Place(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "TIME",
        CustomParser = result =>
        {
            if (TakePlace.TryParse(result.Tokens[0].Value, out var place))
                return place;
            result.AddError($"'{result.Tokens[0].Value}' is no place in a take. Write seconds (12.5), minutes and seconds (1:02.5), a frame (480000f), 'start', 'end', or -2 for two seconds before the end.");
            return null;
        },
    };

    public static RoleSettings Roles(ParseResult parsed, Option<int?> mid, Option<int?> side, Option<bool?> invert) =>
        new(parsed.GetValue(mid), parsed.GetValue(side), parsed.GetValue(invert));

    public static Decibels? ParseDecibels(ArgumentResult result)
    {
        if (Decibels.TryParse(result.Tokens[0].Value, out var gain))
            return gain;
        result.AddError($"'{result.Tokens[0].Value}' is no number of decibels. Write a number such as -3 or 1.5, or -inf for mono.");
        return null;
    }

    public static double? ParseLevel(ArgumentResult result)
    {
        if (double.TryParse(result.Tokens[0].Value.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out var level) && double.IsFinite(level))
            return level;
        result.AddError($"'{result.Tokens[0].Value}' is no level. Write a number such as -1 or -23.");
        return null;
    }

    private static bool ParseBoolean(ArgumentResult result)
    {
        if (bool.TryParse(result.Tokens[0].Value, out var value))
            return value;
        result.AddError($"'{result.Tokens[0].Value}' is neither 'true' nor 'false'.");
        return false;
    }
}
