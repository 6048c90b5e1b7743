using System.Text.Json;
using Athwart.Catalogue;
using Athwart.Jobs.LineUp;

namespace Athwart.Jobs.Shape;

/// <summary>Finds treatments: those kept in a library, those that come with the program, and files.</summary>
public static class TreatmentShelf
{
    /// <summary>The treatment of this name in the library, else the starting one of this name, else the file of this path.</summary>
    /// <param name="library">The library; null for none.</param>
    /// <param name="nameOrPath">The name, or a path that ends in '.json'.</param>
    /// <exception cref="JobException">There is none, or it cannot be read.</exception>
    public static Treatment Find(Library? library, string nameOrPath)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(nameOrPath);
        if (library?.GetTreatment(TreatmentScope.Name, nameOrPath) is { } kept)
            return Read(kept);
        if (StartingTreatments.Find(nameOrPath) is { } starting)
            return starting;
        if (nameOrPath.EndsWith(".json", StringComparison.OrdinalIgnoreCase))
            return TreatmentFiles.Read(nameOrPath);
        throw new JobException(JobErrorKind.WrongUse, $"There is no treatment '{nameOrPath}'.", "List them with 'athwart shape list', or name a file that ends in .json.");
    }

    /// <summary>What puts the recording of a take right; null for nothing.</summary>
    public static Treatment? Correction(Library library, TakeId take) => Kept(library, TreatmentScope.Correction, take.Value);

    /// <summary>The treatment of a take; null for none.</summary>
    public static Treatment? OfTake(Library library, TakeId take) => Kept(library, TreatmentScope.Take, take.Value);

    /// <summary>The treatment of an effect; null for none.</summary>
    public static Treatment? OfEffect(Library library, EffectId effect) => Kept(library, TreatmentScope.Effect, effect.Value);

    /// <summary>What is done to a take or one of its effects: the correction first, then the effect's own treatment, else the one named for all, else the take's.</summary>
    /// <param name="library">The library.</param>
    /// <param name="take">The take.</param>
    /// <param name="effect">The effect; null for the whole take.</param>
    /// <param name="named">The one named for all; null for none.</param>
    /// <returns>Null when nothing is done.</returns>
    public static Treatment? For(Library library, TakeId take, EffectId? effect, Treatment? named)
    {
        var own = effect is { } id ? OfEffect(library, id) : null;
        return Join(Correction(library, take), own ?? named ?? OfTake(library, take));
    }

    /// <summary>One after the other as one; the width is the second's, else the first's.</summary>
    public static Treatment? Join(Treatment? first, Treatment? second)
    {
        if (first is null || second is null)
            return first ?? second;
        return second with { Steps = [.. first.Steps, .. second.Steps], Decode = second.Decode ?? first.Decode, Rig = second.Rig ?? first.Rig };
    }

    /// <summary>The rig profile attached to a session; null for none.</summary>
    public static RigProfileDocument? RigOf(Library library, SessionId session)
    {
        ArgumentNullException.ThrowIfNull(library);
        return library.RigProfileOf(session) is { } profile ? JsonSerializer.Deserialize(profile.Json, LineUpJson.Default.RigProfileDocument) : null;
    }

    private static Treatment? Kept(Library library, TreatmentScope scope, string key)
    {
        ArgumentNullException.ThrowIfNull(library);
        return library.GetTreatment(scope, key) is { } kept ? Read(kept) : null;
    }

    private static Treatment Read(KeptTreatment kept) => TreatmentFiles.FromJson(kept.Json, $"the treatment kept for {kept.Key}");
}
