using Athwart.Quantities;

namespace Athwart.Jobs.Explain;

/// <summary>Numbers of a made case for kinds that are seen best as numbers.</summary>
internal static class ExampleNumbers
{
    public static IReadOnlyList<Evidence> Of(string kind) => kind switch
    {
        "width-not-reached" => [new("wanted", 40, "degrees"), new("nearest", 63, "degrees")],
        "differs-from-session" => [new("takes with 48 kHz", 6, "takes"), new("takes with 96 kHz", 1, "takes")],
        "level-unlike-session" => [new("quiet of the mid", -78, "dBFS"), new("median of the others", -52, "dBFS"), new("spread of the others", 3, "dB")],
        "recorded-decode" => [new("side level", -3, "dB"), new("residual below the pair", -96, "dB")],
        "not-a-decode" => [new("the pair", 0, "dB"), new("residual below the pair", -4, "dB")],
        "side-not-square" => [new("side points to", 78, "degrees"), new("as it should be", 90, "degrees")],
        "side-not-figure-eight" => [new("side over mid from the left", 0.8, "ratio"), new("side over mid from the right, in phase too", 0.7, "ratio")],
        "mid-backwards" => [new("front in the mid, against the loudest", -14, "dB"), new("rear in the mid, against the loudest", 0, "dB")],
        "mid-pattern-disagrees" => [new("pattern given, A", 0.5, "share"), new("pattern heard, A", 0.27, "share")],
        "sides-unequal" => [new("side over mid from the left", 1.2, "dB"), new("side over mid from the right", -2.4, "dB")],
        "sounds-disagree" => [new("first clap, side over mid", 0.4, "dB"), new("second clap", 4.1, "dB"), new("third clap", -1.9, "dB")],
        "cannot-tell" => [new("loudest sound above the noise", 6, "dB"), new("what it needs", 10, "dB")],
        _ => [],
    };
}
