using System.Text.Json;
using Athwart.Catalogue;
using Athwart.Jobs.Sessions;

namespace Athwart.Jobs.Cut;

/// <summary>Keeps proposals in the library and numbers them for the table.</summary>
internal static class ProposalStore
{
    private const int Version = 1;

    /// <summary>The proposals of a session, numbered from 1.</summary>
    public static IReadOnlyList<CutProposal> Load(Library library, Session session) =>
        [.. library.Proposals(session.Id).Where(p => p.Version <= Version).Select((p, i) => Read(p) with { Number = i + 1 })];

    /// <summary>Replaces those of a take.</summary>
    public static void Save(Library library, SessionTake take, IEnumerable<CutProposal> proposals) => library.ReplaceProposals(
        take.Catalogued.Id,
        [.. proposals.Select((p, i) => new StoredProposal(take.Catalogued.Id, i, Version, JsonSerializer.Serialize(p with { Number = 0, Take = take.Name }, CutJson.Compact.CutProposal)))]);

    private static CutProposal Read(StoredProposal stored) =>
        JsonSerializer.Deserialize(stored.Json, CutJson.Compact.CutProposal) ?? throw new JobException(JobErrorKind.Storage, "A proposal in the library is empty.", "Find the cuts again with: athwart cut find.");
}
