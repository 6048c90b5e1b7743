using Athwart.Jobs.Explain;
using Athwart.Signals.Convolution;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape.Sounds;

/// <summary>A made sound for each step that treats mid and side apart.</summary>
internal static class StepSounds
{
    private const int Rate = ExampleSound.Rate;

    /// <summary>In the order of docs/shaping-steps.md.</summary>
    public static IReadOnlyList<StepSound> All { get; } =
    [
        Of("mono-guard", "Water whose side swells to four times its own in the third second: the guard holds it there, and only there.", new MonoGuard(0), StepView.SideGain, Swelling),
        Of("width-over-time", "A weir that opens from mono to wider than it was within five seconds.", new WidthOverTime([new(0, -60), new(Rate, -60), new(4 * Rate, 6)]), StepView.SideGain, Weir),
        Of("balance", "Strokes from straight ahead, turned 20° to the left; the mono stays what it was.", new Balance(20), StepView.Lean, Ahead),
        Of("swap", "Strokes that go from left to right and back; with the roles exchanged the side is in the middle, and the mid is what spreads.", new Swap(), StepView.MidLevel, Strokes),
        Of("side-alone", "The room of the lock without the gate that strikes in it.", new SideAlone(), StepView.MidLevel, Room),
        Of("transient-balance", "A gate that strikes in a room: what sounds on in the mid is turned down, the strikes and the room in the side stay.", new TransientBalance(PairRoles.Mid, 0, -15), StepView.MidLevel, Room),
        Of("width-follows-level", "A boat that comes near and goes: far away it is narrow, near it opens.", new WidthFollows(FollowedQuantity.Level, -45, -20, -20, 6), StepView.SideGain, Boat),
        Of("width-follows-pitch", "A winch that runs up: the higher it turns, the wider its room.", new WidthFollows(FollowedQuantity.Pitch, 200, 2000, -25, 6), StepView.SideGain, Winch),
        Of("side-delayed", "The side 60 ms after the mid: strokes that the room answers.", new Delay(PairRoles.Side, 60), StepView.SideLevel, Short),
        Of("side-filtered", "The top of the side raised, the mid as it was: air around the water.", new HighShelf(PairRoles.Side, 3000, 9, 0.7), StepView.Response, Weir),
        Of("mono-below", "Below 250 Hz nothing of the side is left: the rumble stands in the middle.", new MonoBelow(250, 24, FilterPhase.Linear), StepView.Response, Rumble),
        Of("shuffler", "Below 600 Hz the side is raised: low sounds spread as the high ones do.", new Shuffler(600, 6, ShufflerLaw.SideOnly, FilterPhase.Minimum), StepView.Response, Rumble),
        Of("side-slower", "The side at half the speed under the mid as it was: its strokes come twice as late and an octave lower.", new Speed(0.5, PairRoles.Side), StepView.SideLevel, Short),
        Of("made-up-side", "A take with one channel: a side is made up from it, and is gone again in mono.", new MadeUpSide(MadeUpMethod.VelvetNoise), StepView.SideLevel, Strokes),
        Of("speed", "All at half the speed, an octave lower and twice as long.", new Speed(0.5), StepView.MidLevel, Short),
    ];

    private static StepSound Of(string name, string says, object settings, StepView view, Func<ExampleSound> make) => new(name, says, TreatmentStep.Of(settings), view, make);

    private static ExampleSound Swelling() => ExampleSound.Place(5, 0.03, 0.15).Also(s => s.AddNoise(s.Side, 0.12, 1500, 2, 3));

    private static ExampleSound Weir() => ExampleSound.Place(5, 0.07, 0);

    private static ExampleSound Rumble() => ExampleSound.Place(5, 0.02, 0.1).Also(s => s.AddNoise(s.Mid, 0.08, 90).AddNoise(s.Side, 0.06, 90));

    private static ExampleSound Strokes() => ExampleSound.Place(5, 0.01, 0.4);

    private static ExampleSound Ahead() => ExampleSound.Place(5, 0.004, 0).Also(s =>
    {
        for (var at = 0.4; at < 4.8; at += 0.7)
            s.Stroke(s.Mid, at, 0.35, 700, 0.1);
    });

    private static ExampleSound Short() => ExampleSound.Place(4, 0.002, 0).Also(s =>
    {
        for (var at = 0.4; at < 3.6; at += 0.8)
            s.Stroke(s.Mid, at, 0.35, 900, 0.02).Stroke(s.Side, at, 0.25, 900, 0.02);
    });

    // Each strike rings on in the mid, and its room in the side.
    private static ExampleSound Room() => ExampleSound.Place(5, 0.002, 0).Also(s =>
    {
        for (var at = 0.4; at < 4.4; at += 1.3)
        {
            s.Stroke(s.Mid, at, 0.3, 420, 0.012).Stroke(s.Mid, at, 0.1, 260, 0.35);
            s.AddNoise(s.Side, 0.05, 900, at, at + 1);
        }
    });

    private static ExampleSound Boat() => ExampleSound.Place(6, 0.002, 0).Also(s => s.AddNoise(s.Mid, 0.14, 400, 0.5, 5.5).AddNoise(s.Side, 0.07, 400, 0.5, 5.5));

    private static ExampleSound Winch() => ExampleSound.Place(5, 0.002, 0).Also(s => s.Glide(s.Mid, 150, 2400, 0.2, 0, 5).AddNoise(s.Side, 0.08));
}
