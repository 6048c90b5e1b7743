using System.CommandLine;
using Athwart.Jobs;
using Athwart.Jobs.PlanRig;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary>The options that say what a rig is planned for.</summary>
internal sealed class OutingOptions
{
    private readonly Option<double?> _width = RigOptions.Number("--width", "Width of a subject that stays, in metres.", "M");
    private readonly Option<double?> _distance = RigOptions.Number("--distance", "Distance of the subject, in metres; where it passes, the closest.", "M");
    private readonly Option<double?> _path = RigOptions.Number("--path", "Length of the straight path of a subject that passes, in metres; with --distance.", "M");
    private readonly Option<bool> _fromRight = new("--from-right") { Description = "It passes from the right to the left." };
    private readonly Option<double?> _speed = RigOptions.Number("--speed", "Its speed, in metres per second.", "M/S");
    private readonly Option<double?> _quietest = RigOptions.Number("--quietest", "The quietest wanted sound at the microphones, in dB SPL.", "DB");
    private readonly Option<double?> _loudest = RigOptions.Number("--loudest", "The loudest sound at the microphones, in dB SPL (RMS).", "DB");
    private readonly Option<double?> _crest = RigOptions.Number("--crest", "How far its peaks lie above that, in dB; 12 unless said.", "DB");
    private readonly Option<double?> _headroom = RigOptions.Number("--headroom", "Room to keep above the loudest peak, in dB; 6 unless said.", "DB");
    private readonly Option<double?> _threshold = RigOptions.Number("--threshold", "Level difference that counts as fully to one side, in dB; 15 unless said.", "DB");
    private readonly Option<double?> _spacing = RigOptions.Number("--spacing", "How far the side's capsule is before (+) or behind (-) the mid's, in millimetres.", "MM");
    private readonly Option<double?> _temperature = RigOptions.Number("--temperature", "Air temperature in degrees Celsius; 20 unless said.", "C");
    private readonly Option<double?> _humidity = RigOptions.Number("--humidity", "Relative humidity in percent; 50 unless said.", "PERCENT");
    private readonly Option<double?> _pressure = RigOptions.Number("--pressure", "Air pressure in kilopascals; 101.325 unless said.", "KPA");
    private readonly Option<double?> _rate = RigOptions.Number("--rate", "Sample rate to record at, in hertz; 48000 unless said.", "HZ");
    private readonly Option<int?> _word = new("--word-bits") { Description = "Bits of a sample; 24 unless said.", HelpName = "BITS" };
    private readonly Option<double?> _source = RigOptions.Number("--source-level", "For a recording to be slowed down: the source's level in a third octave at 1 kHz, 1 m away, in dB SPL.", "DB");
    private readonly Option<double?> _slope = RigOptions.Number("--source-slope", "How that level goes on above, in dB per octave; 0 unless said.", "DB");
    private readonly Option<string[]> _hazards = new("--hazard") { Description = "What about the subject can hurt: " + string.Join(", ", HazardWords.All) + ".", HelpName = "WORD", AllowMultipleArgumentsPerToken = true };
    private readonly Option<double?> _headphones = RigOptions.Number("--headphones", "The monitoring level at the ear, in dBA.", "DB");
    private readonly Option<double?> _hours = RigOptions.Number("--hours", "Hours out there.", "H");

    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[_width, _distance, _path, _fromRight, _speed, _quietest, _loudest, _crest, _headroom, _threshold, _spacing, _temperature, _humidity, _pressure, _rate, _word, _source, _slope, _hazards, _headphones, _hours])
            command.Add(option);
    }

    public Outing Read(ParseResult parsed)
    {
        Lonely(parsed);
        var outing = Subject(parsed, new Outing());
        return OutingRules.Checked(outing with
        {
            QuietestDecibels = parsed.GetValue(_quietest),
            LoudestDecibels = parsed.GetValue(_loudest),
            CrestDecibels = parsed.GetValue(_crest) ?? outing.CrestDecibels,
            HeadroomDecibels = parsed.GetValue(_headroom) ?? outing.HeadroomDecibels,
            Threshold = parsed.GetValue(_threshold) is { } t ? new Decibels(t) : outing.Threshold,
            Spacing = parsed.GetValue(_spacing) is { } mm ? OutingRules.Spacing(mm) : null,
            Air = OutingRules.Air(parsed.GetValue(_temperature), parsed.GetValue(_humidity), parsed.GetValue(_pressure)),
            RateHertz = parsed.GetValue(_rate) ?? outing.RateHertz,
            WordBits = parsed.GetValue(_word) ?? outing.WordBits,
            Source = parsed.GetValue(_source) is { } level ? OutingRules.Source(level, parsed.GetValue(_slope) ?? 0) : null,
            SourceMetres = parsed.GetValue(_distance),
            Hazards = HazardWords.Parse(parsed.GetValue(_hazards) ?? []),
            HeadphonesDecibelsA = parsed.GetValue(_headphones),
            Hours = parsed.GetValue(_hours),
        });
    }

    /// <summary>An option that says nothing without another is a mistake, not something to pass over.</summary>
    private void Lonely(ParseResult parsed)
    {
        Needs(parsed.GetValue(_speed) is not null, parsed.GetValue(_path) is not null, _speed, "a subject that passes", _path);
        Needs(parsed.GetValue(_fromRight), parsed.GetValue(_path) is not null, _fromRight, "a subject that passes", _path);
        Needs(parsed.GetValue(_slope) is not null, parsed.GetValue(_source) is not null, _slope, "a source's level", _source);
        Needs(parsed.GetValue(_hours) is not null, parsed.GetValue(_headphones) is not null || parsed.GetValue(_loudest) is not null, _hours, "a level", _headphones, _loudest);
    }

    private static void Needs(bool given, bool has, Option lonely, string what, params ReadOnlySpan<Option> others)
    {
        if (!given || has)
            return;
        var names = others.Length == 1 ? others[0].Name : $"{others[0].Name} or {others[1].Name}";
        throw new JobException(JobErrorKind.WrongUse, $"{lonely.Name} says nothing without {what}.", $"Give {names} too, or leave {lonely.Name} out.");
    }

    private Outing Subject(ParseResult parsed, Outing outing)
    {
        var (width, distance, path) = (parsed.GetValue(_width), parsed.GetValue(_distance), parsed.GetValue(_path));
        if (width is null && path is null)
            return outing;
        if (distance is not { } metres)
            throw new JobException(JobErrorKind.WrongUse, "The subject's distance is missing.", "Give --distance in metres.");
        if (width is not null && path is not null)
            throw new JobException(JobErrorKind.WrongUse, "A subject either stays or passes.", "Give --width or --path.");
        return path is { } length
            ? outing with { Path = OutingRules.Path(length, metres, parsed.GetValue(_fromRight), parsed.GetValue(_speed)) }
            : outing with { Still = new(width!.Value, metres) };
    }
}
