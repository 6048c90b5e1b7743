using System.CommandLine;
using System.CommandLine.Parsing;
using Athwart.Jobs.Render;

namespace Athwart.Cli.Commands;

/// <summary>How a decode is written: word, rate and trim; the same for 'decode' and 'deliver'.</summary>
internal sealed class OutputOptions
{
    public OutputOptions(Command command)
    {
        foreach (var option in new Option[] { Word, Rate, Peak, TruePeak, Ceiling, Loudness })
            command.Options.Add(option);
        Rate.AcceptOnlyFromAmong("44100", "48000", "88200", "96000", "176400", "192000");
        command.Validators.Add(result =>
        {
            if (new Option[] { Peak, TruePeak, Ceiling, Loudness }.Count(o => result.GetResult(o) is not null) > 1)
                result.AddError("Trim to one aim: --peak, --true-peak, --ceiling or --loudness.");
        });
    }

    private Option<OutputWord?> Word { get; } = new("--word")
    {
        Description = "The sample word: s16, s24, s32 or f32; the recording's own unless said. A shorter one is dithered.",
        HelpName = "WORD",
        CustomParser = ParseWord,
    };

    private Option<int?> Rate { get; } = new("--rate") { Description = "The sample rate in hertz; the recording's own unless said.", HelpName = "HZ" };

    private Option<double?> Peak { get; } = Level("--peak", "Trim so that the highest sample is at so many dBFS.");

    private Option<double?> TruePeak { get; } = Level("--true-peak", "Trim so that the true peak is at so many dBTP.");

    private Option<double?> Ceiling { get; } = Level("--ceiling", "Trim down, only where needed, so that the true peak is at most so many dBTP.");

    private Option<double?> Loudness { get; } = Level("--loudness", "Trim so that the integrated loudness is so many LUFS.");

    public OutputWord? WordOf(ParseResult parsed) => parsed.GetValue(Word);

    public int? RateOf(ParseResult parsed) => parsed.GetValue(Rate);

    public TrimRequest TrimOf(ParseResult parsed)
    {
        if (parsed.GetValue(Peak) is { } peak)
            return new(TrimKind.SamplePeak, peak);
        if (parsed.GetValue(TruePeak) is { } truePeak)
            return new(TrimKind.TruePeak, truePeak);
        if (parsed.GetValue(Ceiling) is { } ceiling)
            return new(TrimKind.Ceiling, ceiling);
        return parsed.GetValue(Loudness) is { } loudness ? new(TrimKind.Loudness, loudness) : TrimRequest.None;
    }

    private static Option<double?> Level(string name, string description) => new(name) { Description = description, HelpName = "LEVEL", CustomParser = CommonOptions.ParseLevel };

    private static OutputWord? ParseWord(ArgumentResult result)
    {
        if (OutputWords.TryParse(result.Tokens[0].Value, out var word))
            return word;
        result.AddError($"'{result.Tokens[0].Value}' is no word. Write s16, s24, s32 or f32.");
        return null;
    }
}
