using System.Globalization;
using static System.FormattableString;

namespace Athwart.Jobs.PlanRig;

/// <summary>What the field sheet says that is the same for every rig, and what depends on a few figures. Common practice, no source.</summary>
internal static class FieldSheetWords
{
    /// <summary>The usual order of the line-up.</summary>
    public static IReadOnlyList<string> LineUp { get; } =
    [
        "Stand 2 to 3 m in front, at the height of the rig, away from walls. Say \"front\", then clap or click three times.",
        "Walk to the rig's left, the same distance: say \"left\", three claps.",
        "To its right: say \"right\", three claps.",
        "Behind it: say \"rear\", three claps.",
        "Ten seconds of nothing, for the noise. Do it again after any change of gain, cable or microphone.",
    ];

    public static string Monitoring(RigDocument d, bool? decodes)
    {
        var level = d.SideLevel.Decibels is { } dB ? dB.ToString("+0.0;−0.0;0.0", CultureInfo.InvariantCulture) + " dB" : "off";
        return decodes switch
        {
            true => $"decoded, side level {level}",
            false => $"the recorder cannot decode: hear the mid in both ears and check the side by itself; {level} is for the decode at home",
            null => $"side level {level}, if the recorder decodes for the headphones; else the mid in both ears",
        };
    }

    public static string Lasts(PowerSection power)
    {
        var card = power.CardHours is { } hours ? Invariant($"card {hours:0.#} h") : Invariant($"{power.HoursPerGigabyte:0.00} h a gigabyte");
        var split = power.SplitMinutes is { } minutes ? Invariant($" (a new file every {minutes:0} min)") : "";
        var battery = power.BatteryHours is { } lasts ? Invariant($"; batteries {lasts:0.#} h") : "; batteries not known";
        return card + split + battery + (power.PhantomSuffices == false ? "; the recorder gives too little phantom current" : "") + (power.RateSuffices == false ? "; the recorder does not reach this rate" : "");
    }

    public static IReadOnlyList<string> ByEar(bool decodes) => decodes
        ? [
            "Someone who speaks on the left is heard left. If right: the side looks the wrong way, or its polarity is turned.",
            "A voice straight ahead sits in the middle and stays when you switch to mono.",
            "In mono nothing but the width goes. Wind in one ear only, or a phasy hole in the middle: check the side.",
        ]
        :
        [
            "Mid alone: full and near straight ahead, duller and softer from behind.",
            "Side alone: loud from left and right, all but gone straight ahead. Equal from ahead: it is not square to the mid, or the inputs are swapped.",
            "Its needle moves when something sounds at the side, and is still in silence: else cable, phantom or gain.",
            "Wind shows on the side first: rumble in the side alone spoils the stereo, though the mono sounds clean.",
        ];

    public static IReadOnlyList<string> Ruins(RigDocument d)
    {
        List<string> ruins =
        [
            "A gain touched between line-up and take, or one input's limiter at work.",
            "The rig turned during a take: the image turns with it.",
            "Handling, cable and clothing noise: stand still, cable fixed.",
            "Wind without protection; a cover that touches a capsule.",
        ];
        ruins.AddRange(d.OverFrequency.Where(s => s.StartsWith("below", StringComparison.Ordinal)).Take(1).Select(s => "Hoping for width in the lows: " + s + "."));
        if (d.Behind is [{ AgainstFrontDecibels: > -12 } behind, ..])
            ruins.Add(behind.AgainstFrontDecibels > -1 ? "You, behind the rig: it hears you as loud as what is in front." : Invariant($"You, behind the rig: sounds from there are only {-behind.AgainstFrontDecibels:0} dB softer than from the front."));
        ruins.Add("A sound cut off: count five seconds of quiet before and after, and say what it was.");
        return ruins;
    }
}
