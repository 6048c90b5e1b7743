using Athwart.Catalogue;

namespace Athwart.Jobs.Cut;

/// <summary>A cut as it was edited.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Before">The cut as it was when the editing began.</param>
/// <param name="After">The cut as it is to be; null removes it.</param>
public sealed record EditEffectRequest(string Library, Effect Before, Effect? After);

/// <summary>Changes or removes one cut; nothing is rendered and the originals are not touched.</summary>
public static class EditEffectJob
{
    /// <summary>Runs it.</summary>
    /// <exception cref="JobException">The cut was changed meanwhile, does not lie in its take, its fades are longer than it, or it is a loop that fades or has no room for its cross-fade.</exception>
    /// <exception cref="LibraryException">The take has another cut of this name, or the library cannot be used.</exception>
    public static void Run(EditEffectRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        library.Transaction(() =>
        {
            if (library.GetEffect(request.Before.Id) is not { } now || !Same(now, request.Before))
                throw new JobException(JobErrorKind.Refused, $"The cut '{request.Before.Name}' was changed or removed meanwhile, in another window or by a command.", "Look at it again and make your change anew.");
            if (request.After is null)
                library.RemoveEffect(request.Before.Id);
            else
                library.SaveEffect(Checked(library, request.After));
        });
    }

    // Records compare lists by reference, so the members are compared one by one.
    private static bool Same(Effect a, Effect b) =>
        a with { Tags = b.Tags, Tokens = b.Tokens } == b && a.Tags.SequenceEqual(b.Tags, StringComparer.Ordinal)
        && a.Tokens.OrderBy(t => t.Key, StringComparer.Ordinal).SequenceEqual(b.Tokens.OrderBy(t => t.Key, StringComparer.Ordinal));

    private static Effect Checked(Library library, Effect effect)
    {
        if (string.IsNullOrWhiteSpace(effect.Name))
            throw new JobException(JobErrorKind.WrongUse, "A cut needs a name.", "Write what is heard, in a few words.");
        var take = library.GetSummary(effect.Take) ?? throw new JobException(JobErrorKind.WrongUse, "The take of this cut is no longer there.", "Choose another take.");
        CutChecks.RequireInside(effect.Range.From.Value, effect.Range.To.Value, take.Name, take.Length.Value, take.SampleRateHertz);
        CutChecks.RequireFades(effect);
        return effect with { Name = effect.Name.Trim() };
    }
}
