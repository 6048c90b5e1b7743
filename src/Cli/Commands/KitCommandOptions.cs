using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Athwart.Jobs.Kits;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Cli.Commands;

/// <summary>What every thing of the kit can be given.</summary>
internal sealed class KitThingOptions(string nameHelp)
{
    private readonly Argument<string> _name = new("NAME") { Description = nameHelp };
    private readonly Option<bool> _owned = new("--owned") { Description = "It is owned; otherwise it is considered." };
    private readonly Option<string?> _notes = new("--notes") { Description = "Anything else worth knowing.", HelpName = "TEXT" };
    private readonly Option<string> _library = CommonOptions.Library();
    private readonly Option<bool> _replace = KitImportCommand.Replace();
    private readonly Option<bool> _json = CommonOptions.Json("what was added and every fault");

    private readonly Option<Price?> _price = new("--price")
    {
        Description = "What one costs with its currency, such as \"149 EUR\".",
        HelpName = "PRICE",
        CustomParser = ParsePrice,
    };

    public string NameOf(ParseResult parsed) => parsed.GetValue(_name)!;

    public bool OwnedOf(ParseResult parsed) => parsed.GetValue(_owned);

    public string NotesOf(ParseResult parsed) => parsed.GetValue(_notes) ?? "";

    public Price? PriceOf(ParseResult parsed) => parsed.GetValue(_price);

    public void AddTo(Command command, params ReadOnlySpan<IEnumerable<Option>> own)
    {
        command.Arguments.Add(_name);
        foreach (var option in own.ToArray().SelectMany(o => o))
            command.Options.Add(option);
        foreach (var option in new Option[] { _price, _owned, _notes, _library, _replace, _json })
            command.Options.Add(option);
    }

    public void Run(Command command, Screen screen, Func<ParseResult, Kit> things) => command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        KitCommand.Finish(screen, KitImportJob.Add(parsed.GetValue(_library)!, things(parsed), "command line", parsed.GetValue(_replace)), parsed.GetValue(_json)))));

    private static Price? ParsePrice(ArgumentResult result)
    {
        var text = result.Tokens[0].Value.Trim();
        var digits = text.TrimEnd([.. "ABCDEFGHIJKLMNOPQRSTUVWXYZ "]);
        if (decimal.TryParse(digits, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var amount))
            return new(amount, text[digits.Length..].Trim());
        result.AddError($"'{text}' is no price. Write a number and the three letters of its currency, such as \"149 EUR\" or \"149.50 GBP\".");
        return null;
    }
}

/// <summary>The options of one pattern of a microphone.</summary>
internal sealed class KitSettingOptions
{
    private readonly KitFigureOptions<MicrophoneSetting> _figures = new(SettingFigures.All);
    private readonly Option<string?> _label = new("--label") { Description = "What the switch or the capsule says; needed where a microphone has several patterns.", HelpName = "TEXT" };

    private readonly Option<IPattern> _pattern = new("--pattern")
    {
        Description = "omni, subcardioid, cardioid, supercardioid, hypercardioid, figure-8, an omni share from 0 to 1, or a measured table.",
        HelpName = "PATTERN",
        Required = true,
        CustomParser = result =>
        {
            if (PatternText.TryParse(result.Tokens[0].Value, out var pattern, out var rule))
                return pattern;
            result.AddError(rule + ".");
            return null;
        },
    };

    public IEnumerable<Option> All => [_pattern, _label, .. _figures.All];

    public MicrophoneSetting Of(ParseResult parsed) => _figures.Fill(parsed, new() { Label = parsed.GetValue(_label) ?? "", Pattern = parsed.GetValue(_pattern)! });
}

/// <summary>An option for each figure of a thing: '--maximum-level' for 'maximum level'.</summary>
internal sealed class KitFigureOptions<T>(IReadOnlyList<KitFigure<T>> figures)
{
    private readonly List<(KitFigure<T> Figure, Option<double?> Option)> _options = [.. figures.Select(f => (f, Create(f)))];

    public IEnumerable<Option> All => _options.Select(o => o.Option);

    public T Fill(ParseResult parsed, T thing) => _options.Aggregate(thing, (t, o) => parsed.GetValue(o.Option) is { } value ? o.Figure.Write(t, value) : t);

    private static Option<double?> Create(KitFigure<T> figure) => new("--" + figure.Name.Replace(' ', '-'))
    {
        Description = $"{char.ToUpperInvariant(figure.Name[0])}{figure.Name[1..]}, {figure.Range}.",
        HelpName = figure.Unit.Length == 0 ? "N" : figure.Unit.ToUpperInvariant().Replace(' ', '-'),
        CustomParser = result =>
        {
            if (double.TryParse(result.Tokens[0].Value.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value))
            {
                if (!figure.IsWhole || figure.Judge(value) is not { IsRefusal: true } remark)
                    return value;
                result.AddError(remark.ToString());
                return null;
            }

            result.AddError($"'{result.Tokens[0].Value}' is no number. Write {figure.Name} in {(figure.Unit.Length == 0 ? "whole numbers" : figure.Unit)} with a decimal point, without the unit.");
            return null;
        },
    };
}
