using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>The treatments that come with the program, to begin from; docs/shape.md explains each.</summary>
public static class StartingTreatments
{
    /// <summary>All, by name.</summary>
    public static IReadOnlyList<Treatment> All { get; } =
    [
        Of("Ambience bed", "Water, wind in trees, the lock basin at rest: wide, dry of rumble, safe in mono.", 1.5, new LowCut(PairRoles.Both, 35, 12), new MonoGuard(lowestCorrelation: 0.1)),
        Of("Animal", "A bird or a dog, near and small: the floor is cut under it, the place stays around it.", -4, new LowCut(PairRoles.Both, 150, 18), new Bell(PairRoles.Mid, 4000, 1.5, 0.8), new LowShelf(PairRoles.Side, 400, -4, 0.7)),
        Of("Bell or metal", "A struck gate, chain or bell: the stroke in the middle, the ring around it.", 0, new LowCut(PairRoles.Both, 60, 12), new TransientBalance(PairRoles.Side, -3, 2), new MonoGuard(lowestCorrelation: 0)),
        Of("Crowd-like bed", "Many voices or many machines: nothing stands in the middle, nothing is lost in mono.", 2, new LowCut(PairRoles.Both, 80, 12), new Bell(PairRoles.Mid, 2500, -2, 0.7), new MonoGuard(lowestCorrelation: 0)),
        Of("Distant", "What is far: the low and the high end of distance, narrow, so that it stays behind what is near.", -6, new LowCut(PairRoles.Both, 90, 12), new HighShelf(PairRoles.Both, 5000, -5, 0.7)),
        Of("Footsteps", "Steps on towpath and lock beam: in the middle, with a little of the place.", -9, new LowCut(PairRoles.Both, 70, 18), new LowShelf(PairRoles.Side, 250, -6, 0.7), new TransientBalance(PairRoles.Mid, 1.5, 0)),
        Of("Hard effect", "A bang or a slam: full in the middle, the low end in mono, the side only as wide as is safe.", -3, new LowCut(PairRoles.Mid, 25, 12), new LowCut(PairRoles.Side, 120, 12), new MonoGuard(lowestCorrelation: 0.2)),
        Of("Interior tone", "A room, a cabin, an engine house at rest: calm, even, without hum's low end.", 0, new LowCut(PairRoles.Both, 45, 12), new HighShelf(PairRoles.Both, 10000, -2, 0.7), new MonoGuard(lowestCorrelation: 0.1)),
        Of("Machine", "The bridge's motor and gears: body in the middle, clatter to the sides.", -2, new LowCut(PairRoles.Side, 150, 12), new Bell(PairRoles.Mid, 120, 2, 0.9), new HighShelf(PairRoles.Side, 6000, 2, 0.7), new MonoGuard(lowestCorrelation: 0)),
        Of("Mono made wide", "A take with one channel: a side is made up from it, which is gone again in mono and always said to be made up.", 0, new MadeUpSide(MadeUpMethod.VelvetNoise)),
        Of("Pass-by", "A boat, a bicycle, a train over the bridge: it passes in the middle and opens as it is near.", -2, new LowCut(PairRoles.Both, 40, 12), new WidthFollows(FollowedQuantity.Level, -50, -15, -3, 2), new MonoGuard(lowestCorrelation: 0)),
        Of("Ultrasonic slowed down", "What lies above hearing, played four times slower: two octaves down, and four times as long.", 0, new LowCut(PairRoles.Both, 4000, 24), new Speed(0.25)),
        Of("Water", "Running water, sluices, rain: wide and bright, the roar below held in the middle.", 1, new LowCut(PairRoles.Both, 30, 12), new LowShelf(PairRoles.Side, 200, -5, 0.7), new MonoGuard(lowestCorrelation: 0)),
    ];

    /// <summary>The one of this name, whatever the case of its letters; null for none.</summary>
    public static Treatment? Find(string name) => All.FirstOrDefault(t => string.Equals(t.Name, name, StringComparison.OrdinalIgnoreCase));

    private static Treatment Of(string name, string note, double sideLevelDecibels, params object[] steps) => new()
    {
        Name = name,
        Note = note,
        Steps = [.. steps.Select(s => TreatmentStep.Of(s))],
        Decode = new() { SideLevelDecibels = sideLevelDecibels },
    };
}
